using Portwitness.Analysis;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.Negotiation;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Product;
using Portwitness.Product.Arrangements;

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
            LabelName = analysis.LabelName,
            Unusable = analysis.Unusable,
            Rules = analysis.Rules.ToContract(),
            Devices = DeviceMatrix.Of(analysis.Offers).ToContract(),
            ToolVersion = typeof(ReportTranslation).Assembly.GetName().Version!.ToString(3),
        };
        translated.Ports.AddRange(analysis.Captures.GroupBy(capture => capture.Port).Select(captures => ToPort(captures, analysis.Label)));
        translated.Findings.AddRange(analysis.Findings.Select(FindingTranslation.ToContract));
        translated.NextSteps.AddRange(analysis.NextSteps.Select(PhraseText.Of).Distinct());
        translated.Statements.AddRange(analysis.Statements.Select(ToContract));
        translated.StatementCounts = CountsOf([.. analysis.Statements, .. analysis.FurtherLabels.SelectMany(static one => one.Statements)]);
        translated.FurtherLabels.AddRange(analysis.FurtherLabels.Select(ToContract));
        translated.Faults.AddRange(analysis.Faults.Select(FindingTranslation.ToContract));
        translated.Cautions.AddRange(analysis.Cautions);
        translated.AddArrangements(analysis);
        translated.AddSignalling(analysis);
        translated.AddEnergy(analysis);
        translated.AddDecisions(analysis);
        translated.AddSoaks(analysis);
        translated.AddTeardown(analysis);
        translated.AddClaims(analysis);
        translated.AddHandling(analysis);
        return translated;
    }

    private static Wire.PortReport ToPort(IGrouping<string, CaptureAnalysis> captures, Label? label)
    {
        Wire.PortReport port = new() { Port = captures.Key };
        port.Arrangements.AddRange(captures.SelectMany(
            capture => CapturePieces.Of(capture).Select(piece => ToArrangement(capture, piece, label))));
        return port;
    }

    private static Wire.ArrangementReport ToArrangement(CaptureAnalysis capture, CapturePiece piece, Label? label)
    {
        Wire.ArrangementReport arrangement = new()
        {
            File = capture.File,
            Edition = capture.Editions.ToText(),
            Cable = capture.Cable,
            Offered = piece.Offered?.ToContract(),
        };
        arrangement.InUse.AddRange(piece.InUse);
        arrangement.LabelPort = label?.NameOf(capture.Port) ?? "";
        arrangement.LabelInUse.AddRange(piece.InUse.Select(port => label?.NameOf(port) ?? port));
        arrangement.Contracts.AddRange(piece.Contracts.Select(CaptureTranslation.ToContract));
        arrangement.Periods.AddRange(piece.Periods.Select(static period => new Wire.OfferPeriod
        {
            FromUs = period.FromUs,
            UntilUs = period.UntilUs,
            BeganWith = period.Start switch
            {
                PieceStart.List => "list",
                PieceStart.Attach => $"attach {period.Port}".TrimEnd(),
                PieceStart.Detach => $"detach {period.Port}".TrimEnd(),
                _ => "",
            },
            After = PhraseText.Of(period.After),
        }));
        return arrangement;
    }

    private static Wire.FurtherLabel ToContract(JudgedLabel judged)
    {
        Wire.FurtherLabel translated = new() { Name = judged.Name, Label = judged.Label.ToContract() };
        translated.Statements.AddRange(judged.Statements.Select(ToContract));
        return translated;
    }

    private static Wire.StatementCounts? CountsOf(IReadOnlyCollection<Statement> statements) => statements.Count == 0 ? null : new()
    {
        Printed = statements.Count,
        Holds = statements.Count(static one => one.Verdict == Verdict.Holds),
        Fails = statements.Count(static one => one.Verdict == Verdict.Fails),
        CannotTell = statements.Count(static one => one.Verdict == Verdict.CannotTell),
    };

    private static Wire.Statement ToContract(Statement statement) => new()
    {
        LabelLine = statement.At.Line,
        LabelColumn = statement.At.Column,
        Port = statement.Port,
        Claim = PhraseText.Of(statement.Claim),
        Verdict = ((Verdict?)statement.Verdict).ToContract(),
        Evidence = PhraseText.Of(statement.Evidence),
        NextStep = PhraseText.Of(statement.NextStep),
    };
}
