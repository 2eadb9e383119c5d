namespace Portwitness.Reports.Proofing;

/// <summary>Sentences of an article that say different things of one port: the most that it gives alone.</summary>
internal static class ArticleContradictions
{
    /// <summary>The later one of each pair, with the earlier one.</summary>
    public static Dictionary<ArticleAmount, string> Find(ArticleReader article, List<ReadAmount> amounts)
    {
        Dictionary<ArticleAmount, string> found = [];
        Dictionary<string, ReadAmount> first = [];
        Dictionary<(int Sentence, string Port), int> powers = amounts.Where(static one => one.Amount.Unit.Dimension == ArticleDimension.Power)
            .GroupBy(static one => (one.Sentence.Start, one.Port)).ToDictionary(static group => group.Key, static group => group.Count());
        foreach (ReadAmount read in amounts.Where(IsPromise))
        {
            // A sentence with several powers of a port speaks of several things.
            bool isOnly = powers[(read.Sentence.Start, read.Port)] == 1;
            if (!isOnly || first.TryAdd(read.Port, read))
            {
                continue;
            }

            ReadAmount earlier = first[read.Port];
            if (Math.Abs(earlier.Amount.Value - read.Amount.Value) > earlier.Amount.Slack + read.Amount.Slack)
            {
                (int line, _) = article.PlaceOf(earlier.Amount.Start);
                found[read.Amount] = FormattableString.Invariant($"line {line} says {article.TextOf(earlier.Amount)} of {read.Port}");
            }
        }

        return found;
    }

    private static bool IsPromise(ReadAmount read) => read.Amount.Unit.Dimension == ArticleDimension.Power && read.Port.Length > 0 && read.IsOfPort && read.Says("promised")
        && !read.Says("together") && !read.Says("measured") && !read.Says("approximate");
}
