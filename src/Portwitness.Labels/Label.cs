using System.Collections.Immutable;
using Portwitness.Labels.Photos;

namespace Portwitness.Labels;

/// <summary>A place in a label's text.</summary>
/// <param name="Line">Counted from 1.</param>
/// <param name="Column">Counted from 1, in characters as a person counts them.</param>
public readonly record struct Place(int Line, int Column);

/// <summary>A printed label as it was read. Nothing of the text is lost: what was not read is in <see cref="Unread"/>.</summary>
public sealed record Label
{
    /// <summary>
    /// Places of <see cref="Unread"/> and of <see cref="Repairs"/> that are listed, the first ones of the text; a label has a few.
    /// The rest is counted, so that a hostile text does not make a report many times its length.
    /// </summary>
    public const int MaxListed = 500;

    private Dictionary<string, PrintedOutput>? _byKey;

    /// <summary>Inputs, in the order of the text.</summary>
    public ImmutableArray<PrintedInput> Inputs { get; init; } = [];

    /// <summary>The most that is printed for the inputs of a port or of the product.</summary>
    public ImmutableArray<PrintedInputMaximum> InputMaxima { get; init; } = [];

    /// <summary>Outputs, one for each port, in the order of the text.</summary>
    public ImmutableArray<PrintedOutput> Outputs
    {
        get;
        init => (field, _byKey) = (value, null);
    } = [];

    /// <summary>Ratings for several ports at once.</summary>
    public ImmutableArray<PrintedCombination> Combinations { get; init; } = [];

    /// <summary>Combinations that can be read in several ways, with each reading.</summary>
    public ImmutableArray<AmbiguousCombination> Ambiguous { get; init; } = [];

    /// <summary>Combinations whose values are not as many as their ports; their words are in <see cref="Unread"/> too.</summary>
    public ImmutableArray<UnfitSplit> UnfitSplits { get; init; } = [];

    /// <summary>Wireless pads. Nothing of USB PD shows what they give.</summary>
    public ImmutableArray<PrintedPad> Pads { get; init; } = [];

    /// <summary>The total of the product; null when none is printed.</summary>
    public PrintedTotal? Total { get; init; }

    /// <summary>Battery figures; null when none are printed.</summary>
    public PrintedBattery? Battery { get; init; }

    /// <summary>Printed efficiencies and no-load powers.</summary>
    public ImmutableArray<PrintedPerformance> Performance { get; init; } = [];

    /// <summary>Statements that are understood and rate nothing: model, serial number, origin.</summary>
    public ImmutableArray<PrintedRemark> Remarks { get; init; } = [];

    /// <summary>What was recognised on a photo; null for a text that somebody typed.</summary>
    public RecognisedText? Photo { get; init; }

    /// <summary>Whether a person has compared the text with the photo. Until then nothing that was read accuses.</summary>
    public bool IsChecked { get; init; }

    /// <summary>Whether the text is a photo's that nobody has compared with it.</summary>
    public bool IsUnchecked => Photo is not null && !IsChecked;

    /// <summary>Words that could not be read, in the order of the text; at most <see cref="MaxListed"/>.</summary>
    public ImmutableArray<UnreadSpan> Unread { get; init; } = [];

    /// <summary>How many more places with words that could not be read there are.</summary>
    public int UnlistedUnread { get; init; }

    /// <summary>Every place where something else was read than is printed, in the order of the text; at most <see cref="MaxListed"/>.</summary>
    public ImmutableArray<PrintedRepair> Repairs { get; init; } = [];

    /// <summary>How many more places where something else was read than is printed there are.</summary>
    public int UnlistedRepairs { get; init; }

    /// <summary>The ratings were entered by hand; <see cref="Text"/> is how they are written in short, not what is printed.</summary>
    public bool ByHand { get; init; }

    /// <summary>What a person had settled when it was read.</summary>
    public ImmutableArray<LabelCorrection> Corrections { get; init; } = [];

    /// <summary>The text as given.</summary>
    public required string Text { get; init; }

    /// <summary>
    /// Lines of which characters were taken for others that look like them. What is read there may be another value, so it
    /// accuses nobody before a person has looked.
    /// </summary>
    public ImmutableHashSet<int> DoubtfulLines { get; init; } = [];

    /// <summary>Whether more may be rated than was read: an unread line has a number with an electrical unit or a port's name.</summary>
    public bool MayRateMore => UnlistedUnread > 0 || Unread.Any(static span => span.MayRate);

    /// <summary>The same without lines that can be read in several ways: these are held against the evidence in each of them.</summary>
    public bool HasUnreadRating => UnlistedUnread > 0 || Unread.Any(span => span.MayRate && !IsAmbiguous(span));

    /// <summary>Whether unread words are those of a combination that can be read in several ways.</summary>
    public bool IsAmbiguous(UnreadSpan span)
    {
        ArgumentNullException.ThrowIfNull(span);
        return Ambiguous.Any(either => either.At.Line == span.At.Line && span.Text.Contains(either.Text, StringComparison.Ordinal)
            && !span.Text.Replace(either.Text, "", StringComparison.Ordinal).Any(char.IsAsciiDigit));
    }

    /// <summary>Whether a line is one of <see cref="DoubtfulLines"/>; every line is of a photo that nobody has compared.</summary>
    public bool IsDoubtful(int line) => IsUnchecked || DoubtfulLines.Contains(line);

    /// <summary>A port's name as the label spells it where it names it, alone or in a combination; otherwise as given.</summary>
    public string NameOf(string port) => FindOutput(port)?.Port
        ?? Combinations.SelectMany(static combination => combination.Ports).FirstOrDefault(name => PortNames.Same(name, port)) ?? port;

    /// <summary>Whether a port is named, however its name is spelt: alone, in a combination, or as an input.</summary>
    public bool Names(string port) => FindOutput(port) is not null || Inputs.Any(input => PortNames.Same(input.Port, port))
        || Combinations.Concat(Ambiguous.SelectMany(static either => either.Readings)).Any(combination => combination.Ports.Any(name => PortNames.Same(name, port)));

    /// <summary>What is printed for a port, however its name is spelt; null when nothing is.</summary>
    public PrintedOutput? FindOutput(string? port)
    {
        Dictionary<string, PrintedOutput>? byKey = _byKey;
        if (byKey is null)
        {
            byKey = [];
            foreach (PrintedOutput output in Outputs)
            {
                byKey.TryAdd(PortNames.Key(output.Port), output);
            }

            _byKey = byKey;
        }

        return port is null ? null : byKey.GetValueOrDefault(PortNames.Key(port));
    }
}

/// <summary>A statement that rates nothing.</summary>
/// <param name="At">Where it begins.</param>
/// <param name="Text">The words, verbatim.</param>
public sealed record PrintedRemark(Place At, string Text);

/// <summary>Words that could not be read.</summary>
/// <param name="At">Where they begin.</param>
/// <param name="Text">The words, verbatim.</param>
/// <param name="MayRate">Their line has a number with an electrical unit, or a port's name: it could rate something.</param>
public sealed record UnreadSpan(Place At, string Text, bool MayRate);
