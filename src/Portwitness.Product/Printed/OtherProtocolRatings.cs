using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Printed;

/// <summary>
/// What a label prints for other protocols than USB PD, and what that explains: a maximum that only they reach is theirs, and PD owes no more
/// than its own ratings.
/// </summary>
public static class OtherProtocolRatings
{
    /// <summary>The port's maximum that USB PD owes; null when none is printed, or another protocol's ratings explain it.</summary>
    public static PrintedMaximum? MaximumOfPowerDelivery(PrintedOutput output) =>
        output.ProtocolMaxima.FirstOrDefault(static one => Protocols.IsPowerDelivery(one.Protocol))
            ?? (output.Maximum is { } maximum && Explanation(output, maximum.Power) is null ? maximum : null);

    /// <summary>
    /// What explains a printed power of the port that none of its ratings of USB PD reaches, in words: a rating of another protocol, or
    /// one that was not read. Null when nothing does: then PD owes it.
    /// </summary>
    /// <param name="output">What is printed of the port.</param>
    /// <param name="power">The printed power.</param>
    /// <param name="without12V">The port is of an edition without 12 V (R3.2v1.1, 10.2.3.1), and does not offer it.</param>
    public static Phrase? Explanation(PrintedOutput output, Power power, bool without12V = false)
    {
        long least = power.Milliwatts - PrintedPowers.Tolerance(power.Milliwatts);
        bool isOwed = output.Fixed.Any(mode => MayBeOfPowerDelivery(output, mode, without12V) && (mode.Voltage * mode.Current).Milliwatts >= least)
            || output.Ranges.Any(range => Protocols.IsPowerDelivery(range.Kind) && PrintedPowers.Corner(range) >= least)
            || output.ProtocolMaxima.Any(maximum => Protocols.IsPowerDelivery(maximum.Protocol) && maximum.Power.Milliwatts >= least);
        return isOwed ? null : Others(output, least, without12V).FirstOrDefault()
            ?? (output.Incomplete ? Phrase.Of($"{power} is printed beside words that were not read, and no rating of USB PD that was read reaches it") : null);
    }

    /// <summary>Whether a mode without a protocol is printed beside a list that is named as that of USB PD.</summary>
    public static bool IsBesideList(PrintedFixed mode, IEnumerable<PrintedFixed> all) =>
        mode.Protocol is null && all.Any(static other => Protocols.NamesList(other.Protocol));

    private static bool MayBeOfPowerDelivery(PrintedOutput output, PrintedFixed mode, bool without12V) => Protocols.IsPowerDelivery(mode.Protocol)
        && CouldBeFixedSupply(mode) && !(without12V && mode.Voltage.Millivolts == 12000) && !IsBesideList(mode, output.Fixed);

    // R3.2v1.1, 10.2; 12 V before R3.2. 5 V above 3 A is printed for other protocols as a rule (common practice, no source).
    private static bool CouldBeFixedSupply(PrintedFixed mode) =>
        mode.Voltage.Millivolts is 5000 or 9000 or 12000 or 15000 or 20000 or 28000 or 36000 or 48000
        && mode.Current.Milliamperes <= (mode.Voltage.Millivolts == 5000 ? PowerRules.PlainCableMilliamperes : PowerRules.ConnectorMilliamperes);

    private static IEnumerable<Phrase> Others(PrintedOutput output, long least, bool without12V) =>
    [
        .. output.Fixed.Where(mode => !MayBeOfPowerDelivery(output, mode, without12V) && (mode.Voltage * mode.Current).Milliwatts >= least)
            .Select(static mode => Words($"{mode.Voltage} {mode.Current}", mode.Protocol)),
        .. output.Ranges.Where(range => !Protocols.IsPowerDelivery(range.Kind) && PrintedPowers.Corner(range) >= least)
            .Select(static range => Words($"{range.Minimum} to {range.Maximum} {range.Current}", range.Kind)),
        .. output.ProtocolMaxima.Where(maximum => !Protocols.IsPowerDelivery(maximum.Protocol) && maximum.Power.Milliwatts >= least)
            .Select(static maximum => Words($"{maximum.Power}", maximum.Protocol)),
    ];

    private static Phrase Words(Phrase rating, string? protocol) => Protocols.IsPowerDelivery(protocol)
        ? Phrase.Of($"only {rating} reaches the printed maximum, which need not be of USB PD")
        : $"only {rating} reaches the printed maximum, and that is printed for {protocol}";
}
