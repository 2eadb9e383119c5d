using Portwitness.Analysis;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Product;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Limits;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>One product's analysis.</summary>
internal static class ReportTranslation
{
    public static Wire.ProductReport ToContract(this ProductAnalysis analysis)
    {
        Wire.ProductReport translated = new()
        {
            Product = analysis.Product,
            Sample = analysis.Sample,
            Firmware = analysis.Firmware,
            Verdict = ((Verdict?)analysis.Verdict).ToContract(),
            VerdictBasis = analysis.VerdictBasis,
            Label = analysis.Label?.ToContract(),
            Unusable = analysis.Unusable,
            Rules = analysis.Rules.ToContract(),
            Devices = analysis.Devices.ToContract(),
            ToolVersion = typeof(ReportTranslation).Assembly.GetName().Version!.ToString(3),
        };
        translated.Ports.AddRange(analysis.Captures.GroupBy(capture => capture.Port).Select(captures => ToPort(captures, analysis.Label)));
        translated.Findings.AddRange(analysis.Findings.Select(FindingTranslation.ToContract));
        translated.NextSteps.AddRange(analysis.NextSteps);
        translated.Statements.AddRange(analysis.Statements.Select(ToContract));
        translated.Faults.AddRange(analysis.Faults.Select(FindingTranslation.ToContract));
        translated.Cautions.AddRange(analysis.Cautions);
        translated.AddArrangements(analysis);
        translated.AddSignalling(analysis);
        translated.AddEnergy(analysis);
        return translated;
    }

    private static Wire.PortReport ToPort(IGrouping<string, CaptureAnalysis> captures, Label? label)
    {
        Wire.PortReport port = new() { Port = captures.Key };
        port.Arrangements.AddRange(captures.Select(capture => ToArrangement(capture, label)));
        return port;
    }

    private static Wire.ArrangementReport ToArrangement(CaptureAnalysis capture, Label? label)
    {
        Wire.ArrangementReport arrangement = new()
        {
            File = capture.File,
            Edition = capture.Editions.ToText(),
            Cable = capture.Cable,
            Offered = capture.Advertisements.LastOrDefault()?.ToContract(),
        };
        arrangement.InUse.AddRange(capture.Arrangement);
        arrangement.LabelPort = label?.NameOf(capture.Port) ?? "";
        arrangement.LabelInUse.AddRange(capture.Arrangement.Select(port => label?.NameOf(port) ?? port));
        arrangement.Contracts.AddRange(capture.Contracts.Select(CaptureTranslation.ToContract));
        return arrangement;
    }

    private static Wire.Statement ToContract(Statement statement) => new()
    {
        LabelLine = statement.At.Line,
        LabelColumn = statement.At.Column,
        Port = statement.Port,
        Claim = statement.Claim,
        Verdict = ((Verdict?)statement.Verdict).ToContract(),
        Evidence = statement.Evidence,
        NextStep = statement.NextStep,
    };
}
