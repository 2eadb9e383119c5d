using Portwitness.Captures.PowerLogs;

namespace Portwitness.Product.Energy;

/// <summary>What was added up to some row, and what could not be. A copy keeps the state of that row.</summary>
internal struct Tally
{
    /// <summary>Charge and energy of the steps that were counted.</summary>
    public EnergySums Sums;

    /// <summary>Time of steps that were not counted: gaps, and the step within which the discharge ended.</summary>
    public long UncountedUs { get; private set; }

    /// <summary>Steps that were too long to say what happened in between.</summary>
    public long Gaps { get; private set; }

    /// <summary>Time of those.</summary>
    public long GapUs { get; private set; }

    /// <summary>The longest of them.</summary>
    public long LongestGapUs { get; private set; }

    /// <summary>Line behind the longest gap.</summary>
    public long LongestGapLine { get; private set; }

    /// <summary>Where in the log's time the longest gap began.</summary>
    public long LongestGapAtUs { get; private set; }

    /// <summary>How often the clock stepped back. How much time passed there cannot be known.</summary>
    public long Jumps { get; private set; }

    /// <summary>Line behind the first step back.</summary>
    public long FirstJumpLine { get; private set; }

    /// <summary>How far the clock stepped back there.</summary>
    public long FirstJumpUs { get; private set; }

    /// <summary>The largest amount of the current, in µA.</summary>
    public long LargestMicroamperes { get; private set; }

    /// <summary>The largest amount of the power, in µV·µA.</summary>
    public long LargestPower { get; private set; }

    /// <summary>The time between the first row and the last that were counted, jumps left out.</summary>
    public readonly long SpanUs => Sums.TimeUs + GapUs;

    /// <summary>Counts the step between two rows; false when it was a gap or a jump.</summary>
    public bool Step(in PowerLogRow from, in PowerLogRow to, long longestStepUs)
    {
        long time = to.TimeUs - from.TimeUs;
        if (time < 0)
        {
            if (Jumps++ == 0)
            {
                (FirstJumpLine, FirstJumpUs) = (to.Line, -time);
            }

            return false;
        }

        if (time > longestStepUs)
        {
            Gaps++;
            GapUs = Sum(GapUs, time);
            UncountedUs = Sum(UncountedUs, time);
            if (time > LongestGapUs)
            {
                (LongestGapUs, LongestGapLine, LongestGapAtUs) = (time, to.Line, from.TimeUs);
            }

            return false;
        }

        Sums.Add(from, to);
        return true;
    }

    /// <summary>Takes the amounts of a row, for what a gap may hold at most.</summary>
    public void Look(in PowerLogRow row)
    {
        long amps = Math.Abs(row.Microamperes);
        LargestMicroamperes = Math.Max(LargestMicroamperes, amps);
        LargestPower = Math.Max(LargestPower, amps * Math.Abs(row.Microvolts));
    }

    /// <summary>Time that may hold some of what is measured, but was not counted.</summary>
    public void LeaveOpen(long timeUs) => UncountedUs = Sum(UncountedUs, Math.Max(0, timeUs));

    // A file may step forth and back as often as it likes.
    private static long Sum(long left, long right) => left > long.MaxValue - right ? long.MaxValue : left + right;
}
