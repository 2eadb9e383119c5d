using System.Globalization;
using Portwitness.Analysis.Phrases;

namespace Portwitness.Product.Parts;

/// <summary>Parts in words.</summary>
public static class PartWords
{
    /// <summary>As product files write the kind; empty for what has a rating alone.</summary>
    public static string ToWord(this PartKind kind) => kind switch
    {
        PartKind.Tvs => "tvs",
        PartKind.SenseResistor => "sense-resistor",
        PartKind.Inductor => "inductor",
        PartKind.Contacts => "contacts",
        PartKind.Ribbon => "ribbon",
        PartKind.Cable => "cable",
        _ => "",
    };

    extension(ProductPart part)
    {
        /// <summary>What is stated besides rated volts and amperes, for example "stands off 24 V, clamps 38.9 V".</summary>
        public Phrase Rating => part.Kind switch
        {
            PartKind.Tvs => Listed(part.Standoff is { } off ? $"stands off {off}" : Phrase.Empty, part.Clamp is { } clamp ? $"clamps {clamp}" : Phrase.Empty),
            PartKind.SenseResistor => Listed($"{Thousandths(part.Microohms)} mΩ", $"{part.Watts}"),
            PartKind.Inductor => Listed(
                $"saturates at {part.Saturation}", part.Nanohenries is null ? Phrase.Empty : $"{Thousandths(part.Nanohenries)} µH",
                part.Hertz is null ? Phrase.Empty : $"{Thousandths(part.Hertz)} kHz"),
            PartKind.Contacts or PartKind.Ribbon => Listed($"{part.Contacts} contacts", part.PerContact is { } each ? $"{each} each" : Phrase.Empty),
            PartKind.Cable => part.Microohms is not null
                ? $"{Thousandths(part.Microohms)} mΩ"
                : Phrase.Of($"{Thousandths(part.Millimetres)} m of AWG {part.Gauge}"),
            _ => Listed(
                part.Microohms is null ? Phrase.Empty : $"{Thousandths(part.Microohms)} mΩ", part.Watts is { } watts ? $"{watts}" : Phrase.Empty,
                part.Ripple is { } ripple ? $"ripple {ripple}" : Phrase.Empty, part.Parallel > 1 ? $"{part.Parallel} in parallel" : Phrase.Empty),
        };
    }

    private static Phrase Listed(params Phrase[] words) => Phrase.Join(", ", words.Where(static word => !word.IsEmpty));

    private static string Thousandths(int? value) => ((value ?? 0) / 1000m).ToString("0.###", CultureInfo.InvariantCulture);
}
