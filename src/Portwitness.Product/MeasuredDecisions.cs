using System.Collections.Immutable;
using Portwitness.Analysis;
using Portwitness.Analysis.Phrases;
using Portwitness.Captures;
using Portwitness.Following.Contracts;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Product.Decisions;
using Portwitness.Product.Energy;
using Portwitness.Product.Loads;

namespace Portwitness.Product;

/// <summary>What was measured and has limits, each with its uncertainty.</summary>
internal static class MeasuredDecisions
{
    private const int Most = 1_000;

    /// <summary>All of them: contracts of captures, ports under load, rated capacities, mains supplies; at most a thousand.</summary>
    public static ImmutableArray<MeasuredDecision> Of(
        IEnumerable<CaptureAnalysis> captures, IEnumerable<LoadEvidence> loads, ProductEnergy energy, Func<string, string> named) =>
        [.. OfContracts(captures.Where(capture => capture.Instrument.StatesVoltage || energy.Decision == DecisionRule.Guarded), named).Concat(loads.Select(OfLoad).OfType<MeasuredDecision>()).Concat(OfCapacity(energy)).Concat(energy.Adapter.SelectMany(OfAdapter)).Take(Most)];

    private static IEnumerable<MeasuredDecision> OfContracts(IEnumerable<CaptureAnalysis> captures, Func<string, string> named)
    {
        foreach (CaptureAnalysis capture in captures)
        {
            foreach (ContractAttempt contract in capture.Contracts)
            {
                if (contract.Measured is not { Allowed: { } allowed, Mean: { } mean })
                {
                    continue;
                }

                long limit = capture.Instrument.OfVoltage(mean.Millivolts) * 1000L;
                MeasuredDecision decision = OfVoltage(
                    named(capture.Port), capture.Arrangement, contract.Voltage is { } volts ? Phrase.Of($"mean VBUS under {volts}") : "mean VBUS", mean.Millivolts * 1000L, allowed, limit,
                    capture.Instrument.StatesVoltage);
                if (!MayBeTheCable(decision, capture.Instrument.Point))
                {
                    yield return decision with { File = capture.File };
                }
            }
        }
    }

    private static MeasuredDecision? OfLoad(LoadEvidence load)
    {
        MeasuredDecision decision = OfVoltage(load.Port, load.InUse, $"mean VBUS under load, {load.At}", load.Microvolts, load.Limits, load.Meter.OfVoltage(load.Microvolts), load.Meter.States);
        return MayBeTheCable(decision, load.Meter.Point) ? null : decision with { File = load.Name };
    }

    private static MeasuredDecision OfVoltage(string port, ImmutableArray<string> inUse, Phrase about, long microvolts, VoltageBand limits, long limit, bool isStated) => new(
        port, inUse, about, QuantityUnit.Microvolts, microvolts, limits.Minimum.Millivolts * 1000L, limits.Maximum.Millivolts * 1000L, Uncertainty.Expanded(limit), limit)
    {
        IsStated = isStated,
    };

    // Behind a cable a low voltage says nothing of the port.
    private static bool MayBeTheCable(MeasuredDecision decision, MeasuringPoint point) => point != MeasuringPoint.Source && decision.Value < decision.Least;

    private static IEnumerable<MeasuredDecision> OfCapacity(ProductEnergy energy)
    {
        if (energy.Label?.Battery is { RatedCapacityMilliampereHours: { } rated } battery && RatedDischarge.Of(energy, battery, rated) is { IsComparable: true, Log: { } log }
            && log.Charge.Most is { } most)
        {
            long bound = Math.Max(log.Charge.Value - log.Charge.Least, most - log.Charge.Value);
            yield return new MeasuredDecision(
                log.Log.Port ?? "", [], "rated capacity", QuantityUnit.MicroampereHours, log.Charge.Value, rated * 1000L, null, Uncertainty.Expanded(bound), bound)
            {
                IsStated = log.Meter.States, File = log.Log.File, LabelLine = (battery.RatedAt ?? battery.At).Line,
            };
        }
    }

    // Of the two kinds of output that a limit may be of, the one that decides; between both it is open.
    private static IEnumerable<MeasuredDecision> OfAdapter(AdapterRun run)
    {
        (double least, double most) = run.Limits().Efficiency();
        if (run.AveragePpm is { } average && (average >= most * 1_000_000 ? most : average < least * 1_000_000 ? least : (double?)null) is { } share)
        {
            yield return new MeasuredDecision(
                "", [], $"average efficiency at {run.At}", QuantityUnit.PartsPerMillionOfLimit, average, (long)Math.Round(share * 1_000_000), null,
                run.UncertaintyPpm!.Value, run.UncertaintyPpm.Value)
            {
                IsStated = run.AccuracyPpm is not null,
            };
        }

        (int few, int many) = run.Limits().NoLoad();
        if (run.NoLoadMilliwatts is { } taken && (taken <= few ? few : taken > many ? many : (int?)null) is { } limit)
        {
            long off = run.OfNoLoad(taken);
            yield return new MeasuredDecision("", [], $"power without a load at {run.At}", QuantityUnit.Milliwatts, taken, null, limit, Uncertainty.Expanded(off), off)
            {
                IsStated = run.AccuracyPpm is not null,
            };
        }
    }
}
