namespace Portwitness.Reports.Proofing;

/// <summary>Amounts that two others of their sentence come to: volts times amperes are watts, volts times ampere-hours watt-hours.</summary>
internal static class ArticleProducts
{
    // A sentence has a few; a hostile one does not make a square of its length.
    private const int MaxFactors = 12;

    /// <summary>The two amounts, in words; null when no two come to it.</summary>
    public static string? Of(ArticleReader article, ArticleAmount amount, IReadOnlyList<ArticleAmount> sentence)
    {
        ArticleDimension? factor = amount.Unit.Dimension switch
        {
            ArticleDimension.Power => ArticleDimension.Current,
            ArticleDimension.Energy => ArticleDimension.Charge,
            _ => null,
        };
        foreach (ArticleAmount volts in sentence.Where(one => factor is not null && one.Unit.Dimension == ArticleDimension.Voltage).Take(MaxFactors))
        {
            foreach (ArticleAmount other in sentence.Where(one => one.Unit.Dimension == factor).Take(MaxFactors))
            {
                decimal product = volts.Value * other.Value;
                if (amount.IsOf(product, product))
                {
                    return FormattableString.Invariant($"{article.TextOf(volts)} times {article.TextOf(other)} are {amount.Unit.In(product):0.###} {amount.Unit.Written}");
                }
            }
        }

        return null;
    }
}
