namespace Portwitness.Reports.Proofing;

/// <summary>An amount with the sentence around it.</summary>
/// <param name="Amount">The amount.</param>
/// <param name="Sentence">Its sentence.</param>
/// <param name="Words">What the words of the sentence say.</param>
/// <param name="Port">The port that it is said of; empty where none is named.</param>
internal sealed record ReadAmount(ArticleAmount Amount, ArticleSentence Sentence, SentenceWords Words, string Port)
{
    private static readonly (ArticleDimension Dimension, string[] Topics)[] Topics =
    [
        (ArticleDimension.Charge, ["rated-capacity", "capacity"]), (ArticleDimension.Energy, ["energy"]), (ArticleDimension.Mass, ["mass"]),
        (ArticleDimension.Length, ["size"]), (ArticleDimension.Power, ["total"]), (ArticleDimension.Ratio, ["efficiency"]),
    ];

    /// <summary>The port was named right before it: what the sentence promises is promised of that port.</summary>
    public bool IsOfPort { get; init; }

    /// <summary>The sentence names a voltage: a power in it may be that of a mode.</summary>
    public bool NamesVoltage { get; init; }

    /// <summary>All amounts of the sentence.</summary>
    public IReadOnlyList<ArticleAmount> Beside { get; init; } = [];

    /// <summary>Whether the sentence has a word of a row of Words.txt.</summary>
    public bool Says(string row) => Words.Say(row);

    /// <summary>What the sentence says that such an amount is of, a row of Words.txt; empty where it does not.</summary>
    public string Topic(ArticleDimension dimension) =>
        (Port.Length > 0 && dimension == ArticleDimension.Power ? null
            : Topics.Where(one => one.Dimension == dimension).SelectMany(static one => one.Topics).FirstOrDefault(Says)) ?? "";
}

/// <summary>What the words of a sentence say, each looked for once.</summary>
/// <param name="sentence">The sentence.</param>
internal sealed class SentenceWords(string sentence)
{
    private readonly Dictionary<string, bool> _found = [];

    /// <summary>Whether it has a word of a row of Words.txt.</summary>
    public bool Say(string row)
    {
        if (!_found.TryGetValue(row, out bool isFound))
        {
            isFound = ArticleWords.Has(sentence, row);
            _found.Add(row, isFound);
        }

        return isFound;
    }
}
