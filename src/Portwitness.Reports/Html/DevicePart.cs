using System.Xml.Linq;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>What described devices would get.</summary>
internal static class DevicePart
{
    public static XElement? Of(DeviceMatrix? matrix)
    {
        if (matrix is not { Rows.Count: > 0 })
        {
            return null;
        }

        List<string[]> columns = DeviceMatrixText.Columns(matrix);
        return Markup.Section(
            "devices", "What described devices would get",
            Markup.Table(DeviceMatrixText.Block(matrix, columns), "Power for each device, port and arrangement"),
            Markup.Element("p", Markup.Class("small"), DeviceMatrixText.Legend(matrix, columns)));
    }
}
