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

        (string[] headings, string[][] rows, string legend) = DeviceMatrixText.Cells(matrix);
        return Markup.Section(
            "devices", "What described devices would get",
            Markup.Table(headings, rows, "Power for each device, port and arrangement"), Markup.Element("p", Markup.Class("small"), legend));
    }
}
