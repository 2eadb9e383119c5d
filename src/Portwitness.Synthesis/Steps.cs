using System.Collections.Immutable;
using Portwitness.Text;

namespace Portwitness.Synthesis;

/// <summary>A step of a script with its place.</summary>
/// <param name="Line">Counted from 1.</param>
/// <param name="Column">Counted from 1.</param>
internal abstract record Step(int Line, int Column);

/// <summary>One step.</summary>
internal sealed record SingleStep(int Line, int Column, Action<Dialogue> Play, Mishap? Mishap) : Step(Line, Column);

/// <summary>Steps that are taken several times.</summary>
/// <param name="Line">Counted from 1.</param>
/// <param name="Column">Counted from 1.</param>
/// <param name="Times">How often, and how far apart.</param>
/// <param name="Body">What is repeated.</param>
internal sealed record RepeatStep(int Line, int Column, Repetition Times, ImmutableArray<Step> Body) : Step(Line, Column);

/// <summary>How often something is repeated.</summary>
/// <param name="Count">How many times, at least once.</param>
/// <param name="PeriodUs">From the beginning of one to that of the next; null when one follows the other.</param>
internal sealed record Repetition(long Count, long? PeriodUs)
{
    private const int MaxTimes = 1_000_000_000;

    /// <summary>Reads "3", "3 every 8s", or "every 8s for 2h".</summary>
    public static Repetition Read(ScriptWords words)
    {
        if (!words.Take("every"))
        {
            int count = words.ExpectNumber(MaxTimes, "a number of times, or \"every\" with a time,");
            long? period = words.Take("every") ? Period(words) : null;
            return count == 0 ? throw ScriptFault.Value($"\"{words.Text}\": 0 times is never; leave the steps out") : new(count, period);
        }

        long every = Period(words);
        if (!words.Take("for"))
        {
            throw ScriptFault.Value($"\"for\" and a time were expected in \"{words.Text}\", for example every 8s for 2h");
        }

        long total = words.Expect(AmountWords.Microseconds, "a time such as 2h");
        return total < every
            ? throw ScriptFault.Value($"\"{words.Text}\" is shorter than one period")
            : new Repetition(total / every, every);
    }

    private static long Period(ScriptWords words) =>
        words.Expect(word => AmountWords.Microseconds(word) is > 0 and { } us ? us : (long?)null, "a time above 0 such as 8s");
}
