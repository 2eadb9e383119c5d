namespace Portwitness.Reports.Proofing;

/// <summary>Sentences of an article that say different things of one port: the most that it gives alone.</summary>
internal static class ArticleContradictions
{
    /// <summary>The later one of each pair, with the earlier one.</summary>
    public static Dictionary<ArticleAmount, string> Find(ArticleReader article, List<ReadAmount> amounts)
    {
        Dictionary<ArticleAmount, string> found = [];
        Dictionary<string, ReadAmount> first = [];
        foreach (ReadAmount read in amounts.Where(IsPromise))
        {
            // A sentence with several powers of a port speaks of several things.
            bool isOnly = amounts.Count(one => one.Sentence == read.Sentence && one.Port == read.Port && one.Amount.Unit.Dimension == ArticleDimension.Power) == 1;
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
