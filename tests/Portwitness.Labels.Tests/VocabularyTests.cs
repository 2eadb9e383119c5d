namespace Portwitness.Labels.Tests;

public sealed class VocabularyTests
{
    [Fact]
    public void Phrase_IsListedOnceInLowerCaseWithSingleSpaces()
    {
        string[] phrases = [.. Vocabulary.Table.SelectMany(static row => row.Phrases)];

        phrases.Should().OnlyHaveUniqueItems();
        phrases.Should().OnlyContain(static phrase =>
            phrase == string.Join(' ', phrase.ToLowerInvariant().Split(' ', StringSplitOptions.RemoveEmptyEntries)));
    }

    [Fact]
    public void Phrase_IsOneTokenWithItsMeaningInAnyCase()
    {
        foreach ((_, Term meaning, string[] phrases) in Vocabulary.Table)
        {
            foreach (string phrase in phrases)
            {
                Token token = Tokenizer.Read(FoldedText.Of(phrase.ToUpperInvariant())).Should().ContainSingle(phrase).Subject;
                token.Term.Should().Be(meaning, phrase);
            }
        }
    }

    [Fact]
    public void EveryMeaning_HasAPhrase() =>
        Vocabulary.Table.Select(static row => row.Meaning).Should().Contain(Enum.GetValues<Term>().Except([Term.None]));
}
