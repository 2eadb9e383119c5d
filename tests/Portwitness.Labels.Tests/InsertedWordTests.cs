namespace Portwitness.Labels.Tests;

/// <summary>No word that is not in the vocabulary moves a rating to another port or direction.</summary>
public sealed class InsertedWordTests
{
    private const int Edits = 20_000;

    private static readonly string[] Words = ["zorvik", "Qualmen", "ткемор", "ぬめそ", "Blorp", "PRAK", "갸뎌"];

    // Labels with two maxima of one port have one left where a word hides the other.
    private static readonly string[] Labels =
        [.. LabelCase.All.Select(static one => one.Text).Concat(BlindCount.Texts()).Where(static text => !IsContradictory(text))];

    [Fact]
    public void InsertedWord_IsInNoVocabulary() => Words.Should().OnlyContain(static word => Vocabulary.Find(word) == Term.None);

    [Fact]
    public void InsertedWord_MovesNoRating()
    {
        Random numbers = new(180);
        for (int edit = 0; edit < Edits; edit++)
        {
            string text = Labels[numbers.Next(Labels.Length)];
            int[] places = [.. Enumerable.Range(0, text.Length + 1).Where(i => IsBetweenWords(text, i))];
            int place = places[numbers.Next(places.Length)];
            string edited = $"{text[..place]} {Words[numbers.Next(Words.Length)]} {text[place..]}";

            RatedPorts.Of(LabelReader.Read(edited)).Except(RatedPorts.Of(LabelReader.Read(text))).Should().BeEmpty("«{0}»", edited);
        }
    }

    private static bool IsBetweenWords(string text, int i) => i == 0 || i == text.Length
        || text[i] is ' ' or '\n' or ':' or ',' or '+' or '/' or '(' || text[i - 1] is ' ' or '\n' or ':' or '\uFF1A';

    private static bool IsContradictory(string text) => LabelReader.Read(text) is var label
        && label.Unread.Any(static span => span.Text.Contains('W', StringComparison.Ordinal))
        && label.Outputs.Any(static output => output is { Incomplete: true, Maximum: not null });
}
