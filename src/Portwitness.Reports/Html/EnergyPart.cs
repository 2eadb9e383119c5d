using System.Xml.Linq;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>What logs of power add up to, with their curves; mains supplies and parts.</summary>
internal static class EnergyPart
{
    public static XElement? Of(ProductReport report) => Markup.Section(
        "energy", "Measured energy",
        Markup.Table(EnergyTables.Logs(report), "Logs of power, added up"),
        Markup.List(EnergyTables.LogRemarks(report)),
        report.PowerLogs.Select((log, index) => TracePlot.Of(log, $"d{index}")).OfType<XElement>().ToArray(),
        Markup.Table(EnergyTables.Adapter(report), "Mains supply"),
        Markup.Table(ChargeTable.Of(report), ChargeTable.Title),
        Markup.List(ChargeTable.Remarks(report)),
        Markup.Table(LoadLineTable.Of(report), LoadLineTable.Title),
        Markup.Table(SoakTable.Of(report), SoakTable.Title),
        Markup.List(SoakTable.Remarks(report)),
        Markup.Table(DecisionTable.Of(report), DecisionTable.Title),
        report.Decisions.Count > 0 ? Markup.List([DecisionTable.Rule(report)]) : null,
        Markup.Table(EnergyTables.Parts(report), "Parts of the board"),
        Markup.Table(PackTable.Of(report), PackTable.Title),
        Markup.Table(EnergyTables.Controllers(report), "Port controllers"));
}
