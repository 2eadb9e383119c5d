using Portwitness.Analysis.Phrases;
using Portwitness.Labels;

namespace Portwitness.Product.Offers;

/// <summary>Next steps that ask for a look at several lines of a label in the same words are one, with all its lines.</summary>
internal static class FoldedSteps
{
    private const int MaxLines = 500;

    /// <summary>The steps, each once; a folded one stands where its first did.</summary>
    public static IEnumerable<Phrase> Of(IEnumerable<Phrase> steps, Label? label)
    {
        List<Phrase> all = [.. steps.Distinct()];
        if (label is null)
        {
            return all;
        }

        int lines = Math.Min(MaxLines, label.Text.Count(static letter => letter == '\n') + 1);
        Fold(all, lines, line => NextSteps.ConfirmLine(label, line), numbers => NextSteps.ConfirmLines(label, numbers));
        Fold(all, lines, NextSteps.ReadLine, NextSteps.ReadLines);
        return all;
    }

    private static void Fold(List<Phrase> all, int lines, Func<int, Phrase> ofOne, Func<IEnumerable<int>, Phrase> ofSeveral)
    {
        Dictionary<Phrase, int> known = Enumerable.Range(1, lines).ToDictionary(ofOne);
        int[] found = [.. all.Where(known.ContainsKey).Select(step => known[step]).Order()];
        if (found.Length < 2)
        {
            return;
        }

        int first = all.FindIndex(known.ContainsKey);
        all.RemoveAll(known.ContainsKey);
        all.Insert(first, ofSeveral(found));
    }
}
