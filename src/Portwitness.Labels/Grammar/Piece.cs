using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>What the grammar makes of a few neighbouring tokens; its meaning still depends on what is around it.</summary>
internal abstract record Piece
{
    /// <summary>Index of its first token.</summary>
    public int First { get; private set; }

    /// <summary>Index after its last token.</summary>
    public int End { get; private set; }

    public void Place(int first, int end) => (First, End) = (first, end);
}

[Flags]
internal enum Direction
{
    Unsaid = 0,
    Input = 1,
    Output = 2,
    Both = Input | Output,
}

/// <summary>"5V⎓3A", "5V/3A/15W", "5V⎓3A Max".</summary>
internal sealed record ModePiece(Token Volts, Token Amps, Token? Watts, bool IsMaximum) : Piece
{
    /// <summary>Its voltage and its current stand in lists or rows.</summary>
    public bool IsApart { get; init; }

    /// <summary>Volts times amperes, in mW.</summary>
    public long Milliwatts => (long)Volts.Value * Amps.Value / 1000;
}

/// <summary>"5V/9V/12V⎓3A/2.22A/1.67A".</summary>
internal sealed record ModeListPiece(ImmutableArray<ModePiece> Modes) : Piece;

/// <summary>"3.3-11V⎓5A". The lower end in mV.</summary>
internal sealed record RangePiece(int Minimum, int Maximum, Token Amps, Token? Watts) : Piece
{
    // SPR AVS has one current up to 15 V and one above (R3.2v1.1, 6.4.1.2.4.2).
    private const int SprAvsMinimum = 9000;
    private const int SprAvsStep = 15_000;
    private const int SprAvsMaximum = 20_000;

    /// <summary>The second current of "9-20V⎓3A/5A".</summary>
    public Token? AmpsAbove { get; init; }

    /// <summary>Whether it is clear which current holds where.</summary>
    public bool IsClear => AmpsAbove is null || (Minimum == SprAvsMinimum && Maximum == SprAvsMaximum && Watts is null);

    /// <summary>Volts times amperes at the upper end, in mW.</summary>
    public long Milliwatts => (long)Maximum * (AmpsAbove ?? Amps).Value / 1000;

    /// <summary>The range, or its two parts where it has two currents.</summary>
    public ImmutableArray<(int Minimum, int Maximum, Token Amps)> Parts => AmpsAbove is null
        ? [(Minimum, Maximum, Amps)] : [(Minimum, SprAvsStep, Amps), (SprAvsStep, Maximum, AmpsAbove)];
}

/// <summary>"DC 12-24V": a supply's voltage, its current printed or not. Voltages in mV.</summary>
internal sealed record SupplyPiece(int Minimum, int Maximum, Token? Amps) : Piece
{
    /// <summary>A sign or word says that it is DC.</summary>
    public bool IsDirect { get; init; }

    /// <summary>One voltage or the other, and nothing between.</summary>
    public bool IsEither { get; init; }
}

/// <summary>"100-240V~ 50/60Hz 1.5A": something that can only be AC. Voltages in mV.</summary>
internal sealed record MainsPiece(
    ImmutableArray<(int Minimum, int Maximum)> Voltages, ImmutableArray<int> Frequencies, Token? Amps, Token? Watts) : Piece;

/// <summary>"5.0 V / 9.0 V": a row of an information sheet.</summary>
internal sealed record RowPiece(Dimension Dimension, ImmutableArray<Token> Values) : Piece;

/// <summary>Lists that do not pair.</summary>
internal sealed record UnclearPiece : Piece;

/// <summary>"65W", "(65W Max)", "up to 65W". <see cref="Inner"/> is the range of tokens inside the parentheses.</summary>
internal sealed record PowerPiece(Token Watts, bool IsMaximum, Range Inner) : Piece
{
    /// <summary>The protocol of "(PD 20W)"; null where none is named.</summary>
    public string? Protocol { get; init; }

    /// <summary>The same as the most of what it stands at.</summary>
    public PowerPiece AsMaximum()
    {
        PowerPiece maximum = this with { IsMaximum = true };
        maximum.Place(First, End);
        return maximum;
    }
}

/// <summary>"USB-C1:", "Output:", "USB-C Input/Output".</summary>
/// <param name="Direction">What is said of it.</param>
/// <param name="Ports">Empty for "Output:".</param>
internal sealed record HeaderPiece(Direction Direction, ImmutableArray<string> Ports) : Piece
{
    /// <summary>A colon or the like closes it.</summary>
    public bool IsMarked { get; init; }

    /// <summary>The direction stands in front of the ports, and may hold for the ports behind too.</summary>
    public bool IsDirectionFirst { get; init; }

    /// <summary>The number of "Output 1 (USB-C):"; null when none is printed apart from the port's name.</summary>
    public int? Number { get; init; }

    /// <summary>The number may be that of ports: "Output 2 USB-C:" is the second, or two of them.</summary>
    public bool IsNumberLoose { get; init; }

    /// <summary>"and" stands between its ports.</summary>
    public bool IsJoined { get; init; }

    /// <summary>Its ratings are those of each of its ports.</summary>
    public bool IsForEach { get; init; }

    /// <summary>The protocol named in it, if any.</summary>
    public string? Protocol { get; init; }

    /// <summary>It stands in parentheses behind the ratings: "5V⎓2A (USB-A)".</summary>
    public bool IsBehind { get; init; }

    /// <summary>The maximum in it: "USB-C1 (PD 65W):".</summary>
    public PowerPiece? Power { get; init; }

    /// <summary>What that is the maximum of, if named.</summary>
    public string? PowerProtocol { get; init; }
}

/// <summary>"(Input)" behind ratings.</summary>
internal sealed record DirectionPiece(Direction Direction) : Piece;

/// <summary>"When two ports are used:".</summary>
/// <param name="Count">How many ports; 0 when it is not said.</param>
/// <param name="IsAlone">One port at a time.</param>
/// <param name="IsOutput">It says that outputs follow.</param>
/// <param name="IsMarked">A colon or the like closes it.</param>
internal sealed record ConditionPiece(int Count, bool IsAlone, bool IsOutput, bool IsMarked) : Piece
{
    /// <summary>Its last word says that they share, or give at once: "the three ports share".</summary>
    public bool IsShared { get; init; }

    /// <summary>The receptacle's letter of "Dual USB-C:"; empty where any port is meant.</summary>
    public string Kind { get; init; } = "";
}

/// <summary>"PPS", "PD 3.0:" before what it holds for, or "(PD)" behind it.</summary>
internal sealed record ProtocolPiece(string Name, bool IsProgrammable, bool IsBehind) : Piece
{
    /// <summary>A colon closes it.</summary>
    public bool IsMarked { get; init; }
}

/// <summary>"C1+C2: 45W+20W". Without a rating it could not be read.</summary>
/// <param name="Sets">"C1+C2/C1+A" are two; each has its ports in groups, "C1+(C2+A)" has two.</param>
/// <param name="Rating">For each of the sets.</param>
internal sealed record CombinationPiece(ImmutableArray<ImmutableArray<ImmutableArray<string>>> Sets, CombinationRating? Rating) : Piece
{
    /// <summary>The ports are named by the numbers of their headers: "1+2: 45W+20W".</summary>
    public bool IsNumbered { get; init; }
}

/// <summary>"45W+20W" behind a condition: the ports are not named.</summary>
internal sealed record SplitPiece(CombinationRating Rating) : Piece
{
    /// <summary>"2C1A: 45W+10W+10W": how many ports of which letter, in this order; empty where a condition says it.</summary>
    public ImmutableArray<(char Letter, int Count)> Kinds { get; init; } = [];
}

/// <summary>What is printed behind the ports of a combination.</summary>
internal sealed record CombinationRating
{
    /// <summary>Values in the order of the ports, each with its port where that is printed.</summary>
    public ImmutableArray<SharePiece> Shares { get; init; } = [];

    /// <summary>One mode for all.</summary>
    public ModePiece? Pool { get; init; }

    /// <summary>Words behind the pool say that it is for all.</summary>
    public bool IsSaidToBeShared { get; init; }

    /// <summary>Words behind the value say that it is for each.</summary>
    public bool IsForEach { get; init; }

    public Token? Total { get; init; }

    /// <summary>"(C2 and A share 15W)" behind the values: which ports the last of them is of.</summary>
    public ImmutableArray<string> SharedBy { get; init; } = [];

    /// <summary>"45W+(15W)": the last value is of all ports that are left.</summary>
    public bool IsLastShared { get; init; }
}

/// <summary>One value of a combination.</summary>
/// <param name="Ports">Where they are printed with the value: one, or several that share it; else empty.</param>
/// <param name="Watts">A power, or none.</param>
/// <param name="Ratings">Modes and ranges, each with its protocol.</param>
internal sealed record SharePiece(ImmutableArray<string> Ports, Token? Watts, ImmutableArray<(Piece Rating, string? Protocol)> Ratings);

/// <summary>"Total 65W", "Max output 65W", "Total output: 5V⎓3A"; one of the three values.</summary>
internal sealed record TotalPiece(Token? Watts, ModePiece? Mode, Token? Amps, string Scope) : Piece
{
    /// <summary>The word is one that says it of several ports, not of the product: "together 5V⎓3A".</summary>
    public bool IsShared { get; init; }
}

/// <summary>"Battery: 20000mAh 3.7V 74Wh", "Rated capacity: 12000mAh (5V⎓3A)".</summary>
internal sealed record BatteryPiece(bool IsRated, int? Capacity, Token? Volts, Token? Amps, Token? WattHours, int? Cells) : Piece;

/// <summary>"Average active efficiency: 88.5 %".</summary>
internal sealed record PerformancePiece(PerformanceKind Kind, Token Value) : Piece;

/// <summary>"Wireless: 5W/15W".</summary>
internal sealed record PadPiece(string Name, ImmutableArray<int> Milliwatts) : Piece;

/// <summary>"each" behind the rating of several ports.</summary>
internal sealed record EachPiece : Piece;

/// <summary>"Model: TH-65", or words that rate nothing.</summary>
internal sealed record RemarkPiece : Piece;

/// <summary>A comma or the like; the strong ones end a statement.</summary>
internal sealed record SeparatorPiece(bool IsStrong) : Piece
{
    /// <summary>A point with a word behind it.</summary>
    public bool IsSentence { get; init; }
}

/// <summary>The end of a line.</summary>
internal sealed record BreakPiece : Piece;

/// <summary>A token that begins nothing.</summary>
internal sealed record UnknownPiece(Token Token) : Piece;
