using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Measuring;

/// <summary>What VBUS did after a Hard Reset or a detach. It judges nothing.</summary>
/// <param name="instrument">How it is measured.</param>
/// <param name="startUs">The signal or the event.</param>
/// <param name="isHardReset">A Hard Reset; otherwise a detach.</param>
public sealed class VbusRemoval(Instrument instrument, long startUs, bool isHardReset)
{
    private const int Safe0V = 800;

    private long? _lastUs;

    /// <summary>The signal or the event.</summary>
    public long StartUs => startUs;

    /// <summary>A Hard Reset; otherwise a detach.</summary>
    public bool IsHardReset => isHardReset;

    /// <summary>How it is measured.</summary>
    public Instrument Instrument => instrument;

    /// <summary>Ports in use.</summary>
    public ImmutableArray<string> InUse { get; init; } = [];

    /// <summary>The last message before it.</summary>
    public long MessageIndex { get; init; }

    /// <summary>In EPR mode at that time; null when the capture begins later than the attach.</summary>
    public bool? InEprMode { get; init; }

    /// <summary>Whether the instrument records when something is attached and detached.</summary>
    public bool RecordsAttach { get; init; }

    /// <summary>Editions that the source may follow.</summary>
    public Editions Editions { get; init; } = Editions.All;

    /// <summary>The least VBUS that what was in force before allows for a moment, in mV; null when it is not known.</summary>
    public int? LeastBefore { get; init; }

    /// <summary>Whether the current was measured and within the contract before.</summary>
    public bool LoadIsKnown { get; init; }

    /// <summary>The first sample surely below <see cref="LeastBefore"/>, if it came before VBUS may begin to fall; null otherwise.</summary>
    public Sample? FellEarly { get; private set; }

    /// <summary>The first sample surely at vSafe5V after VBUS came back; null when it did not arrive.</summary>
    public Sample? Arrived { get; private set; }

    /// <summary>Time between that sample and the one before: VBUS may have arrived so much sooner.</summary>
    public long GapBeforeArrivalUs { get; private set; }

    /// <summary>Samples.</summary>
    public long Samples { get; private set; }

    /// <summary>The longest time without a sample before VBUS was seen at vSafe0V.</summary>
    public long LongestGapUs { get; private set; }

    /// <summary>The last sample surely above vSafe0V before the first that may be there.</summary>
    public Sample? LastHighBefore { get; private set; }

    /// <summary>The first sample surely at vSafe0V.</summary>
    public long? FirstLowUs { get; private set; }

    /// <summary>The last sample surely at vSafe0V before VBUS came back.</summary>
    public long? LastLowUs { get; private set; }

    /// <summary>The first sample surely above vSafe0V after that.</summary>
    public Sample? Back { get; private set; }

    /// <summary>Samples surely above vSafe0V later than a time after the start.</summary>
    public RunTracker Remains { get; } = new(1);

    /// <summary>Whether any sample may be at vSafe0V.</summary>
    public bool MayHaveFallen { get; private set; }

    /// <summary>Takes the next measurement.</summary>
    public void Add(Sample sample)
    {
        Samples++;
        int uncertainty = instrument.OfVoltage(sample.Millivolts);
        bool high = sample.Millivolts - uncertainty > Safe0V;
        if (!MayHaveFallen)
        {
            LongestGapUs = Math.Max(LongestGapUs, sample.TimeUs - (_lastUs ?? startUs));
            LastHighBefore = high ? sample : LastHighBefore;
        }

        if (FellEarly is null && LeastBefore is { } least && sample.Millivolts + uncertainty < least
            && sample.TimeUs + instrument.TimeUncertaintyUs - startUs < VbusLimits.PSHardResetMinimumUs)
        {
            FellEarly = sample;
        }

        long? before = _lastUs;
        _lastUs = sample.TimeUs;
        MayHaveFallen |= !high;
        if (sample.Millivolts + uncertainty <= Safe0V && Back is null)
        {
            FirstLowUs ??= sample.TimeUs;
            LastLowUs = sample.TimeUs;
        }
        else if (high && FirstLowUs is not null)
        {
            Back ??= sample;
            if (Arrived is null && sample.Millivolts + uncertainty >= VbusLimits.Safe5V.Minimum.Millivolts)
            {
                Arrived = sample;
                GapBeforeArrivalUs = sample.TimeUs - (before ?? sample.TimeUs);
            }
        }

        if (!isHardReset && sample.TimeUs > startUs + VbusLimits.VbusOffUs + instrument.TimeUncertaintyUs)
        {
            Remains.Add(high, sample.TimeUs, sample.Millivolts, sample.Milliamperes);
        }
    }

    /// <summary>Nothing follows.</summary>
    public void Close() => Remains.End();
}
