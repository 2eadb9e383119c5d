using System.Globalization;
using Portwitness.Analysis.Phrases;
using Portwitness.Product;
using Portwitness.Product.Energy;
using Portwitness.Product.Handling;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>Passing through, travel card and handling.</summary>
internal static class HandlingTranslation
{
    public static void AddHandling(this Wire.ProductReport report, ProductAnalysis analysis)
    {
        report.PassThrough.AddRange(analysis.PassThrough.Select(ToContract));
        report.Opening.AddRange(analysis.Opening);
        report.Handling.AddRange(HandlingAdvice.Of(analysis.State));
        report.State = analysis.State switch
        {
            ProductState.Sealed => "sealed",
            ProductState.Opened => "opened",
            ProductState.Swollen => "swollen",
            ProductState.ToBeDisposed => "to-be-disposed",
            _ => "",
        };
        if (analysis.Travel is { } travel)
        {
            report.Travel = ToContract(travel);
        }
    }

    private static Wire.PassThrough ToContract(PassThrough passing)
    {
        Wire.PassThrough translated = new() { Inputs = { passing.Inputs }, Outputs = { passing.Outputs } };
        if (passing.InMilliwatts is { } taken)
        {
            translated.InMw = taken;
        }

        if (passing.OutMilliwatts is { } given)
        {
            translated.OutMw = given;
        }

        if (passing.IntoPackMilliwatts is { } into)
        {
            translated.IntoPackMw = into;
        }

        translated.WithoutInput.AddRange(passing.WithoutInput.Select(static one => new Wire.OutputWithoutInput
        {
            Port = one.Reading.Port, MeasuredMv = one.Reading.Measured.Millivolts, MeasuredMa = one.Reading.Drawn.Milliamperes, GoesOn = one.GoesOn,
        }));
        return translated;
    }

    private static Wire.TravelCard ToContract(TravelCard card)
    {
        Wire.TravelCard translated = new() { AsOf = Day(card.AsOf), Energy = PhraseText.Of(card.Energy), Remarks = { card.Remarks } };
        translated.Rules.AddRange(card.Rules.Select(static one => new Wire.TravelRule
        {
            Since = Day(one.Rule.Since), Where = one.Rule.Where, Rule = one.Rule.Text, Mark = one.Mark,
        }));
        return translated;
    }

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
