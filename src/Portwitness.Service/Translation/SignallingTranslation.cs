using Portwitness.Analysis.Phrases;
using Portwitness.Product;
using Portwitness.Product.Comparison;
using Portwitness.Product.Signalling;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>What ports answer to besides USB PD, and what that backs.</summary>
internal static class SignallingTranslation
{
    public static void AddSignalling(this Wire.ProductReport report, ProductAnalysis analysis)
    {
        report.Signalling.AddRange(analysis.Signalling.Select(ToContract));
        report.RatingBackings.AddRange(analysis.Backings.Select(ToContract));
    }

    private static Wire.PortSignalling ToContract(PortSignalling port)
    {
        Wire.PortSignalling translated = new() { Port = port.Port };
        translated.Words.AddRange(port.Words.Select(ToContract));
        translated.From.AddRange(port.From);
        return translated;
    }

    private static Wire.SignallingWord ToContract(SignallingWord word)
    {
        Wire.SignallingWord translated = new()
        {
            Word = word.Text,
            Answers = !word.Denied,
            Basis = word.Basis switch
            {
                LimitBasis.Confirmed => "confirmed",
                LimitBasis.CommonPractice => "common practice",
                _ => "",
            },
            Source = word.Source,
        };
        if (word.Limit is { } limit)
        {
            translated.LimitMa = limit.Milliamperes;
        }

        return translated;
    }

    private static Wire.RatingBacking ToContract(RatingBacking backing) => new()
    {
        Port = backing.Port,
        LabelLine = backing.At.Line,
        LabelColumn = backing.At.Column,
        Printed = PhraseText.Of(backing.Printed),
        Outcome = backing.Outcome switch
        {
            BackingOutcome.Backed => "backed",
            BackingOutcome.Possible => "possible",
            BackingOutcome.TooLittle => "too little",
            BackingOutcome.Nothing => "nothing",
            BackingOutcome.NotAnswered => "not answered",
            _ => "not recorded",
        },
        By = backing.By,
        Source = backing.Source,
    };
}
