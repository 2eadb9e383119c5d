namespace Portwitness.Labels;

internal enum TokenKind
{
    /// <summary>Letters, or letters with digits: a word of the vocabulary, a port's name, a protocol, a model.</summary>
    Word,

    /// <summary>A number without a unit; <see cref="Token.Value"/> is in thousandths.</summary>
    Number,

    /// <summary>A number with its unit.</summary>
    Quantity,

    /// <summary>A sign or word for direct current, other than "=".</summary>
    Direct,

    /// <summary>A word for alternating current.</summary>
    Alternating,
    Equals,
    Tilde,
    Dash,
    Slash,
    Plus,
    Comma,
    Semicolon,
    Bar,
    Bullet,
    Colon,
    Stop,

    /// <summary>"*": a note stands below.</summary>
    Note,
    At,

    /// <summary>"#" in front of a number.</summary>
    NumberSign,

    /// <summary>"≤", ">": at most, at least.</summary>
    Bound,

    /// <summary>"1S2P": cells; <see cref="Token.Value"/> has the thousands in series.</summary>
    Cells,

    /// <summary>"2C1A": so many ports of each letter; <see cref="Token.Word"/> has it.</summary>
    Kinds,
    Open,
    Close,

    /// <summary>The end of a line.</summary>
    Break,

    /// <summary>No sign of the text: the line it begins is one of a table of which nobody knows the head.</summary>
    Unclear,

    /// <summary>Anything else, and numbers that are not sane or not clear.</summary>
    Other,
}

/// <summary>What a quantity measures; the unit of <see cref="Token.Value"/> is in brackets.</summary>
internal enum Dimension
{
    None,

    /// <summary>[mV]</summary>
    Voltage,

    /// <summary>[mA]</summary>
    Current,

    /// <summary>[mW]</summary>
    Power,

    /// <summary>[mVA]: "30VA" says no current and no power.</summary>
    ApparentPower,

    /// <summary>[mWh]</summary>
    Energy,

    /// <summary>[mAh]</summary>
    Charge,

    /// <summary>[Hz]</summary>
    Frequency,

    /// <summary>[1/1000 %]</summary>
    Ratio,
}

/// <summary>A word, number or sign of a label, and where it is printed.</summary>
internal sealed record Token
{
    public required TokenKind Kind { get; init; }

    /// <summary>Index of the first printed character.</summary>
    public required int Start { get; init; }

    /// <summary>Index after the last printed character.</summary>
    public required int End { get; init; }

    /// <summary>Spaces before it: 0, 1, or 2 for more than one or a tab.</summary>
    public required int SpaceBefore { get; init; }

    /// <summary>It goes on from the line above, or stands elsewhere than the token before it.</summary>
    public bool IsMoved { get; init; }

    /// <summary>The folded letters of a word.</summary>
    public string Word { get; init; } = "";

    /// <summary>What the word means.</summary>
    public Term Term { get; init; }

    /// <summary>What "two", "three" and "four" count, also in compounds and other languages; 0 for any other word.</summary>
    public int Counts => Term switch
    {
        Term.Two => 2,
        Term.Three => 3,
        Term.Four => 4,
        _ => 0,
    };

    public Dimension Dimension { get; init; }

    /// <summary>In the unit that the dimension names.</summary>
    public int Value { get; init; }

    /// <summary>Worth of the last printed digit, in the same unit.</summary>
    public int Step { get; init; }

    /// <summary>Whether it is a quantity of that dimension.</summary>
    public bool Is(Dimension dimension) => Kind == TokenKind.Quantity && Dimension == dimension;
}
