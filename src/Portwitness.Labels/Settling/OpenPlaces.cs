using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>
/// What a person can settle in a label, with the ways to read each place. A way is only offered when the reader, given it, reads that place and
/// reads no other place less.
/// </summary>
public static class OpenPlaces
{
    /// <summary>Places that are listed, the first ones of the text.</summary>
    public const int MaxListed = 20;

    private const int MaxReadings = 6;

    // A label with more is no rating plate, and each way to read is a reading of all of it.
    private const int MaxCharacters = 8 << 10;

    /// <summary>The open places of a label.</summary>
    public static ImmutableArray<OpenPlace> Of(Label label)
    {
        ArgumentNullException.ThrowIfNull(label);
        if (label.ByHand)
        {
            return [];
        }

        List<Range> lines = LabelCorrection.Lines(label.Text);
        List<OpenPlace> places = [];
        foreach (PrintedRepair repair in label.Repairs.Where(static repair => repair.Kind == RepairKind.Characters).Take(MaxListed))
        {
            string line = LineOf(label, lines, repair.At);
            places.Add(new OpenPlace(repair.At, repair.Before, Read(label, PossibleReadings.OfRepair(repair, line), _ => true), MayRate: true));
        }

        foreach (UnreadSpan span in label.Unread.Take(MaxListed))
        {
            string line = LineOf(label, lines, span.At);
            int before = label.Unread.Count(other => other.At.Line == span.At.Line);
            ImmutableArray<LabelCorrection> readings = Read(
                label, PossibleReadings.Of(label, span, line), read => read.Unread.Count(other => other.At.Line == span.At.Line) < before);
            bool isAlone = !span.MayRate || IsWholeLine(label, span, line);
            places.Add(new OpenPlace(span.At, span.Text, isAlone ? [.. readings, LabelCorrection.NoRating(span.At.Line)] : readings, span.MayRate));
        }

        return [.. places.OrderBy(static place => place.At.Line).ThenBy(static place => place.At.Column).Take(MaxListed)];
    }

    /// <summary>What to enter for each reading of a combination that can be read in several ways, in their order.</summary>
    public static ImmutableArray<LabelCorrection> ReadingsOf(AmbiguousCombination either)
    {
        ArgumentNullException.ThrowIfNull(either);
        return [.. PossibleReadings.OfAmbiguous(either)];
    }

    private static string LineOf(Label label, List<Range> lines, Place at) => at.Line <= lines.Count ? label.Text[lines[at.Line - 1]] : "";

    private static bool IsWholeLine(Label label, UnreadSpan span, string line) =>
        line.Trim() == span.Text || label.Unread.Count(other => other.At.Line == span.At.Line) > 1;

    private static ImmutableArray<LabelCorrection> Read(
        Label label, IEnumerable<LabelCorrection> possible, Func<Label, bool> isSettled)
    {
        if (label.Text.Length > MaxCharacters)
        {
            return [];
        }

        List<LabelCorrection> read = [];
        foreach (LabelCorrection one in possible.Distinct())
        {
            LabelCorrection[] all = [.. label.Corrections, one];
            if (read.Count < MaxReadings && LabelLimits.Excess(label.Text, all) is null
                && LabelReader.Read(label.Text, all, out IReadOnlyList<LabelCorrection> unused) is var with
                && !unused.Contains(one) && isSettled(with) && ReadsNoLess(label, with, one.Line))
            {
                read.Add(one);
            }
        }

        return [.. read];
    }

    private static bool ReadsNoLess(Label label, Label with, int line)
    {
        HashSet<Place> unread = [.. label.Unread.Select(static span => span.At)];
        return with.UnlistedUnread <= label.UnlistedUnread && with.Unread.All(span => span.At.Line == line || unread.Contains(span.At));
    }
}
