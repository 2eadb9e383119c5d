using System.Globalization;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Rules;
using Portwitness.Analysis.Rules.Timing;
using Portwitness.Following.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Conversation;

/// <summary>Holds intervals against the standard's limits, as far as the capture's times can prove anything.</summary>
internal sealed class TimingChecks(TimingRules rules, CaptureClock clock, SuspicionLog log)
{
    /// <summary>Takes an interval.</summary>
    public void Check(in Interval interval)
    {
        if (clock.IsUseless || !rules.TryGet(interval.Parameter, out LimitedTime? parameter))
        {
            return;
        }

        Elapsed elapsed = Of(interval, 0);
        bool tooLong = (interval.Bounds & Bounds.Max) != 0 && elapsed.LeastUs > parameter.Longest;
        bool tooShort = (interval.Bounds & Bounds.Min) != 0 && elapsed.MostUs < parameter.Shortest;
        if ((tooLong || tooShort) && log.Wants(parameter.Rule, interval.Party, interval.From.StampUs))
        {
            Suspect(interval, parameter, elapsed, tooLong);
        }
    }

    private Elapsed Of(in Interval interval, long allowanceUs)
    {
        Elapsed elapsed = clock.Between(interval.From, interval.To);
        return elapsed with { LeastUs = elapsed.LeastUs - interval.AllowedUs - allowanceUs };
    }

    private void Suspect(Interval interval, LimitedTime parameter, Elapsed elapsed, bool tooLong)
    {
        string awaited = AwaitedText.Of(interval);
        string limit = tooLong ? $"at most {Text(parameter.Longest)}" : $"at least {Text(parameter.Shortest)}";
        log.Add(new Suspicion
        {
            Rule = parameter.Rule,
            Hit = new Hit(Verdict.Fails, $"{Capital(AwaitedText.Of(interval.Party))} took {Text(elapsed)} for {awaited} ({interval.Parameter}).")
            {
                Expected = $"{limit} ({interval.Parameter})",
                Observed = $"{Text(elapsed)}, {awaited}",
            },
            Party = interval.Party,
            TimeUs = interval.To.StampUs,
            FromUs = interval.From.StampUs,
            MessageIndex = interval.Index,
            IsProven = interval.IsProven && elapsed.MostUs < interval.ProvenBelowUs,
            Awaits = interval.Awaits,
            Settle = evidence => Settle(interval, parameter, evidence),
            MayBeLostAttempts = () => tooLong && Of(interval, interval.LateAllowanceUs).LeastUs <= parameter.Longest,
            IsSilentWhenOpen = !clock.IsSoftware && !interval.IsToldWhenOpen,
            Group = (interval.Parameter, awaited, tooLong),
            Excess = tooLong ? elapsed.LeastUs : -elapsed.MostUs,
        });
    }

    // Settled when all stamps were seen: their step, and what they name, is known only then.
    private Verdict? Settle(Interval interval, LimitedTime parameter, SourceEvidence evidence)
    {
        if (clock.IsUseless)
        {
            return null;
        }

        Editions broken = Broken(Of(interval, 0), interval.Bounds, parameter.Rows, row => row.Editions & ~interval.ExceptIn);
        Editions proven = Broken(
            Of(interval, interval.LateAllowanceUs), interval.Bounds, parameter.Rows, row => row.Confirmed & ~interval.ExceptIn);
        return (evidence.Editions & broken) == 0 ? null
            : (evidence.Editions & ~proven) == 0 ? Verdict.Fails
            : Verdict.CannotTell;
    }

    private static Editions Broken(Elapsed elapsed, Bounds bounds, TimingLimit[] rows, Func<TimingLimit, Editions> of)
    {
        Editions broken = Editions.None;
        foreach (TimingLimit row in rows)
        {
            bool isBroken = ((bounds & Bounds.Max) != 0 && elapsed.LeastUs > row.MaxUs)
                || ((bounds & Bounds.Min) != 0 && elapsed.MostUs < row.MinUs);
            broken |= isBroken ? of(row) : Editions.None;
        }

        return broken;
    }

    private static string Text(Elapsed elapsed)
    {
        long least = Math.Max(elapsed.LeastUs, 0);
        return elapsed.MostUs - least <= least / 50 ? Text(least) : $"{Text(least)} to {Text(elapsed.MostUs)}";
    }

    private static string Text(long us) => us switch
    {
        < 10_000 => string.Create(CultureInfo.InvariantCulture, $"{us} us"),
        < 10_000_000 => string.Create(CultureInfo.InvariantCulture, $"{us / 1000m:0.#} ms"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{us / 1_000_000m:0.##} s"),
    };

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
