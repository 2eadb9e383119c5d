using Portwitness.Analysis;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Product;
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
        translated.Ports.AddRange(analysis.Captures.GroupBy(capture => capture.Port).Select(ToPort));
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

    private static Wire.PortReport ToPort(IGrouping<string, CaptureAnalysis> captures)
    {
        Wire.PortReport port = new() { Port = captures.Key };
        port.Arrangements.AddRange(captures.Select(ToArrangement));
        return port;
    }

    private static Wire.ArrangementReport ToArrangement(CaptureAnalysis capture)
    {
        Wire.ArrangementReport arrangement = new()
        {
            File = capture.File,
            Edition = capture.Editions.ToText(),
            Cable = capture.Cable,
            Offered = capture.Advertisements.LastOrDefault()?.ToContract(),
        };
        arrangement.InUse.AddRange(capture.Arrangement);
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
