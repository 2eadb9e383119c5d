namespace Portwitness.Reports.Proofing;

/// <summary>Amounts that say another one once more in another unit: "100 mm (3.94 in)", "100 × 68 mm (3.9 × 2.7 in)".</summary>
internal static class ArticleConversions
{
    /// <summary>The second amounts that are not what the first ones come to, each with what they come to.</summary>
    public static Dictionary<ArticleAmount, string> Wrong(ArticleReader article)
    {
        Dictionary<ArticleAmount, string> wrong = [];
        IReadOnlyList<ArticleAmount> all = article.Amounts;
        for (int i = 1; i < all.Count; i++)
        {
            int count = Length(all, i);
            bool mayConvert = count > 0 && all[i].Sentence == all[i - 1].Sentence && article.IsBracketBetween(all[i - 1], all[i]);
            for (int pair = 0; mayConvert && pair < count; pair++)
            {
                (ArticleAmount first, ArticleAmount second) = (all[i - count + pair], all[i + pair]);
                if (!Agrees(first, second))
                {
                    wrong[second] = FormattableString.Invariant(
                        $"{article.TextOf(first)} are {second.Unit.In(first.Value):0.##} {second.Unit.Written}, {first.Unit.In(second.Value):0.##} {first.Unit.Written} would be {article.TextOf(second)}");
                }
            }
        }

        return wrong;
    }

    // How many amounts of one unit begin here, when as many of another unit of the dimension stand before.
    private static int Length(IReadOnlyList<ArticleAmount> all, int from)
    {
        int count = 1;
        while (from + count < all.Count && ReferenceEquals(all[from + count].Unit, all[from].Unit) && all[from + count].Sentence == all[from].Sentence)
        {
            count++;
        }

        for (; count > 0; count--)
        {
            bool areAlike = from >= count && Enumerable.Range(from - count, count).All(at => all[at].Unit.Dimension == all[from].Unit.Dimension
                && ReferenceEquals(all[at].Unit, all[from - 1].Unit) && all[at].Unit.Factor != all[from].Unit.Factor);
            if (areAlike)
            {
                return count;
            }
        }

        return 0;
    }

    // Either may have been converted from the other; each may be off by half of its last digit.
    private static bool Agrees(ArticleAmount first, ArticleAmount second) =>
        Math.Abs(first.Value - second.Value) <= second.Slack || Math.Abs(first.Value - second.Value) <= first.Slack;
}
