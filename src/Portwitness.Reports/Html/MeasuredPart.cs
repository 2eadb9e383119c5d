using System.Xml.Linq;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Html;

/// <summary>VBUS and IBUS of each capture that measured them.</summary>
internal static class MeasuredPart
{
    public static XElement? Of(ProductReport report) => Markup.Section(
        "measured", "VBUS and IBUS", report.Plots.Select((plot, index) => TracePlot.Of(plot, report, $"v{index}")).OfType<XElement>().ToArray());
}
