namespace Portwitness.Labels.Tests;

/// <summary>The files of words. (What the words mean: shared/facts/label-words.md 1.1, most from memory.)</summary>
public sealed class VocabularyTests
{
    private static readonly string[] Languages = ["de", "en", "es", "fr", "it", "ja", "ko", "pl", "pt", "ru", "zh", "zh-hant"];

    // Signs and names that are the same everywhere are in the common file.
    private static readonly Term[] Common =
        [Term.None, Term.Usb, Term.ConnectorType, Term.PortName, Term.PowerDelivery, Term.Programmable, Term.OpenProtocol, Term.Times, Term.Plus, Term.BothWays];

    [Fact]
    public void EachLanguage_HasEachMeaning()
    {
        foreach (string language in Languages)
        {
            Vocabulary.Table.Where(row => row.Language == language).Select(static row => row.Meaning)
                .Should().Contain(Enum.GetValues<Term>().Except(Common), language);
        }

        Vocabulary.Table.Select(static row => row.Language).Distinct().Should().BeEquivalentTo([.. Languages, "common"]);
        Vocabulary.Table.Select(static row => row.Meaning).Should().Contain(Common.Except([Term.None]));
    }

    [Fact]
    public void Phrase_HasOneMeaningInAllLanguages()
    {
        foreach (IGrouping<string, Term> phrase in Phrases().GroupBy(static one => one.Phrase, static one => one.Meaning))
        {
            phrase.Distinct().Should().ContainSingle(phrase.Key);
        }
    }

    [Fact]
    public void Phrase_IsInLowerCaseWithSingleSpaces() => Phrases().Select(static one => one.Phrase).Should().OnlyContain(static phrase =>
        phrase == string.Join(' ', phrase.ToLowerInvariant().Split(' ', StringSplitOptions.RemoveEmptyEntries)));

    [Fact]
    public void Phrase_IsOneTokenWithItsMeaningInAnyCase()
    {
        foreach ((string phrase, Term meaning) in Phrases().Where(static one => one.Meaning is not (Term.PortName or Term.Usb) && one.Phrase is not ("a" or "а")))
        {
            Token token = Tokenizer.Read(FoldedText.Of(phrase.ToUpperInvariant())).Should().ContainSingle(phrase).Subject;
            token.Term.Should().Be(meaning, phrase);
        }
    }

    [Fact]
    public void Phrase_IsFoundWithoutItsAccents()
    {
        Vocabulary.Find("WEJSCIE").Should().Be(Term.Input);
        Vocabulary.Find("SAIDA").Should().Be(Term.Output);
        Vocabulary.Find("ЕМКОСТЬ").Should().Be(Term.Battery);
        Vocabulary.Find("a").Should().NotBe(Term.None, "\"a\" is a word of its own, no \"à\" without its accent");
    }

    private static IEnumerable<(string Phrase, Term Meaning)> Phrases() =>
        Vocabulary.Table.SelectMany(static row => row.Phrases, static (row, phrase) => (phrase, row.Meaning));
}
