using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Phrases;
using Portwitness.Captures;
using Portwitness.Product;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>Findings and faults. What does not apply stays absent.</summary>
internal static class FindingTranslation
{
    public static Wire.Finding ToContract(this Finding finding)
    {
        Wire.Finding translated = new()
        {
            Rule = finding.Rule,
            Severity = finding.Severity.ToContract(),
            Title = finding.Title,
            Detail = PhraseText.Of(finding.Detail),
            Clause = finding.Clause,
            File = finding.File,
            Port = finding.Port,
            Expected = PhraseText.Of(finding.Expected),
            Observed = PhraseText.Of(finding.Observed),
            NextStep = PhraseText.Of(finding.NextStep),
            Verdict = finding.Verdict.ToContract(),
            Repeats = finding.Repeats,
            Label = finding.Label,
            OtherLabel = finding.OtherLabel,
        };
        translated.Arrangement.AddRange(finding.Arrangement);
        if (finding.TimeUs is { } time)
        {
            translated.TimeUs = time;
        }

        if (finding.MessageIndex is { } index)
        {
            translated.MessageIndex = index;
        }

        if (finding.ObjectPosition is { } position)
        {
            translated.ObjectPosition = position;
        }

        if (finding.LabelLine is { } line)
        {
            translated.LabelLine = line;
        }

        if (finding.OtherLabelLine is { } other)
        {
            translated.OtherLabelLine = other;
        }

        translated.ExpectedValues.AddRange(finding.Expected.ToContract());
        translated.ObservedValues.AddRange(finding.Observed.ToContract());
        translated.FurtherPlaces.AddRange(finding.FurtherPlaces.Select(ToContract));
        return translated;
    }

    private static Wire.FindingPlace ToContract(FindingPlace place)
    {
        Wire.FindingPlace translated = new()
        {
            File = place.File,
            Detail = PhraseText.Of(place.Detail),
            Expected = PhraseText.Of(place.Expected),
            Observed = PhraseText.Of(place.Observed),
            Repeats = place.Repeats,
        };
        translated.Arrangement.AddRange(place.Arrangement);
        if (place.TimeUs is { } time)
        {
            translated.TimeUs = time;
        }

        if (place.MessageIndex is { } index)
        {
            translated.MessageIndex = index;
        }

        if (place.ObjectPosition is { } position)
        {
            translated.ObjectPosition = position;
        }

        translated.ExpectedValues.AddRange(place.Expected.ToContract());
        translated.ObservedValues.AddRange(place.Observed.ToContract());
        return translated;
    }

    public static Wire.Fault ToContract(this CaptureFault fault, string file) => new()
    {
        File = file,
        Line = fault.Line,
        Column = fault.Column,
        Code = fault.Code,
        Detail = fault.Detail,
    };

    public static Wire.Fault ToContract(this FileFault fault) => fault.Fault.ToContract(fault.File);
}
