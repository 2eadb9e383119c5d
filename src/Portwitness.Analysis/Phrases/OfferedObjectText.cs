using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Phrases;

/// <summary>Offered objects in words. Bits that were not shown are left out, or stand as a question mark.</summary>
public static class OfferedObjectText
{
    /// <summary>Kind, voltage, and current or power, for example "fixed 9 V 3 A".</summary>
    public static Phrase ToPhrase(this OfferedObject offered)
    {
        Phrase voltage = offered.VoltagePhrase();
        return offered switch
        {
            { KindIsKnown: false } or { IsZero: true } => voltage,
            { Kind: PowerObjectKind.Battery } => $"{voltage} {offered.AsSource().AsBattery().MaximumPower}",
            { Kind: PowerObjectKind.EprAvs } => $"{voltage} {offered.AsSource().AsEprAvs().Pdp}",
            { Kind: PowerObjectKind.SprAvs } =>
                $"{voltage} {offered.AsSource().AsSprAvs().MaximumCurrentTo15V} / {offered.AsSource().AsSprAvs().MaximumCurrentTo20V}",
            _ => offered.MaximumCurrent() is { } current ? $"{voltage} {current}" : voltage,
        };
    }

    /// <summary>Kind and voltage, for example "fixed 9 V" or "PPS 5 V to 11 V".</summary>
    public static Phrase VoltagePhrase(this OfferedObject offered)
    {
        if (!offered.KindIsKnown)
        {
            return "an object that was not shown";
        }

        Phrase kind = offered.IsZero ? "padding" : Phrase.Of($"{offered.Kind}");
        (Voltage? low, Voltage? high) = (offered.LowestVoltage(), offered.HighestVoltage());
        return offered.Kind == PowerObjectKind.Fixed || low == high
            ? high is null ? kind : $"{kind} {high}"
            : $"{kind} {OrUnknown(low)} to {OrUnknown(high)}";
    }

    /// <summary>The same as <see cref="ToPhrase"/>, in English.</summary>
    public static string ToText(this OfferedObject offered) => PhraseText.Of(offered.ToPhrase());

    /// <summary>The same as <see cref="VoltagePhrase"/>, in English.</summary>
    public static string VoltageText(this OfferedObject offered) => PhraseText.Of(offered.VoltagePhrase());

    private static Phrase OrUnknown(Voltage? voltage) => voltage is null ? "?" : Phrase.Of($"{voltage}");
}
