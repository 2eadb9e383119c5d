using CsCheck;

namespace Portwitness.Labels.Tests;

/// <summary>No word that is not in the vocabulary moves a rating to another port or direction.</summary>
public sealed class InsertedWordTests
{
    private const int Edits = 5000;

    private static readonly string[] Words = ["zorvik", "Qualmen", "ткемор", "ぬめそ", "Blorp", "PRAK", "갸뎌"];

    // Labels with two maxima of one port have one left where a word hides the other.
    private static readonly string[] Labels =
        [.. LabelCase.All.Select(static one => one.Text).Concat(BlindCount.Texts()).Where(static text => !IsContradictory(text))];

    [Fact]
    public void InsertedWord_IsInNoVocabulary() => Words.Should().OnlyContain(static word => Vocabulary.Find(word) == Term.None);

    [Fact]
    public void InsertedWord_MovesNoRating() =>
        Gen.Select(Gen.Int[0, Labels.Length - 1], Gen.Double[0, 1], Gen.Int[0, Words.Length - 1]).Sample(
            static (label, at, word) =>
            {
                string text = Labels[label];
                int[] places = [.. Enumerable.Range(0, text.Length + 1).Where(i => IsBetweenWords(text, i))];
                int place = places[(int)(at * (places.Length - 1))];
                string edited = $"{text[..place]} {Words[word]} {text[place..]}";

                RatedPorts.Of(LabelReader.Read(edited)).Except(RatedPorts.Of(LabelReader.Read(text))).Should().BeEmpty("«{0}»", edited);
            }, iter: Edits, seed: "0000000000b4");

    private static bool IsBetweenWords(string text, int i) => i == 0 || i == text.Length
        || text[i] is ' ' or '\n' or ':' or ',' or '+' or '/' or '(' || text[i - 1] is ' ' or '\n' or ':' or '\uFF1A';

    private static bool IsContradictory(string text) => LabelReader.Read(text) is var label
        && label.Unread.Any(static span => span.Text.Contains('W', StringComparison.Ordinal))
        && label.Outputs.Any(static output => output is { Incomplete: true, Maximum: not null });
}
