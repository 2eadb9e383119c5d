namespace Portwitness.Reports.Proofing;

/// <summary>A number with its unit in an article.</summary>
/// <param name="Start">Index of its first character.</param>
/// <param name="End">Index behind its last character.</param>
/// <param name="Sentence">Which sentence it stands in.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Number">As written.</param>
/// <param name="Step">Worth of the last digit, in its unit.</param>
internal sealed record ArticleAmount(int Start, int End, int Sentence, ArticleUnit Unit, decimal Number, decimal Step)
{
    /// <summary>The number where its only mark may be one of thousands, or of decimals; null where it is clear.</summary>
    public decimal? OtherNumber { get; init; }

    /// <summary>In the dimension's unit.</summary>
    public decimal Value => Unit.Of(Number);

    /// <summary>What it leaves open to either side by its last digit, in the dimension's unit.</summary>
    public decimal Slack => Unit.Factor * Step / 2;

    /// <summary>Whether an amount between two ends is written so.</summary>
    public bool IsOf(decimal least, decimal most, decimal share = 0)
    {
        decimal open = Math.Max(Slack, Math.Abs(Value) * share);
        bool isWithin = Value + open >= least && Value - open <= most;
        return isWithin || (OtherNumber is { } other && Unit.Of(other) + (Unit.Factor / 2) >= least && Unit.Of(other) - (Unit.Factor / 2) <= most);
    }
}

/// <summary>A sentence, an item of a list, or a row of a table.</summary>
/// <param name="Start">Index of its first character.</param>
/// <param name="End">Index behind its last character.</param>
internal sealed record ArticleSentence(int Start, int End);
