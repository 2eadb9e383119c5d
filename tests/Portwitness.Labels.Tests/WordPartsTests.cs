namespace Portwitness.Labels.Tests;

/// <summary>Words that no file lists, from their parts. (What German compounds of plates mean: from memory; common practice, no source.)</summary>
public sealed class WordPartsTests
{
    [Theory]
    [InlineData("Gesamtabgabeleistung", "Total")]
    [InlineData("Summenausgangsleistung", "Total")]
    [InlineData("Doppelanschlussausgang", "Two")]
    [InlineData("Zwei-Port-Betrieb", "Two")]
    [InlineData("Einzelanschlussnutzung", "Alone")]
    [InlineData("Netzanschlussspannung", "Input")]
    [InlineData("Ausgangsnennspannung", "Output")]
    [InlineData("Spitzenausgangsleistung", "MaximumOutput")]
    [InlineData("Akkublock", "Battery")]
    [InlineData("Entnahmekapazität", "RatedCapacity")]
    [InlineData("Zellenenergie", "Energy")]
    [InlineData("Durchschnittswirkungsgrad", "Efficiency")]
    [InlineData("Wandlerwirkungsgrad", "Conversion")]
    [InlineData("Leerlaufverbrauch", "NoLoad")]
    [InlineData("Induktionsausgang", "Wireless")]
    [InlineData("Spiralkabel", "Cable")]
    public void Compound_OfKnownParts_MeansWhatTheySay(string word, string meaning) => WordParts.Find(word).ToString().Should().Be(meaning);

    /// <summary>A part that is not known, two directions, or a direction that a pack and a charger have each in its own way.</summary>
    [Theory]
    [InlineData("Gipfelbetrieb")]
    [InlineData("Blorpausgang")]
    [InlineData("Ausgangsblorp")]
    [InlineData("Gesamteingangsleistung")]
    [InlineData("Energieverbrauch")]
    [InlineData("Ladestrom")]
    [InlineData("Ladeanschluss")]
    [InlineData("Doppelleistung")]
    [InlineData("Eingangsausgang")]
    public void Compound_OfAnythingElse_MeansNothing(string word) => WordParts.OfCompound(word).Should().Be(Term.None);

    [Theory]
    [InlineData("Énergie totale : 37 Wh", "1 battery 37 Wh")]
    [InlineData("Mean efficiency in active mode: 88.9 %", "1 AverageEfficiency 88.9 %")]
    [InlineData("Leistungsaufnahme ohne Last: 0,06 W", "1 NoLoadPower 0.06 W")]
    [InlineData("Energía total: 74 Wh", "1 battery 74 Wh")]
    [InlineData("Rendimento médio em funcionamento: 88,9 %", "1 AverageEfficiency 88.9 %")]
    public void HeadingOfSeveralWords_IsReadByThem(string text, string reading) =>
        LineReading.Statements(LabelReader.Read(text)).Should().Equal(reading);

    [Fact]
    public void Parts_AreInLowerCaseAndEachIsOneWord()
    {
        WordParts.Table().Select(static row => row.Word).Should().OnlyContain(static word => !word.Any(char.IsUpper) && !word.Contains(' '));
        foreach (IGrouping<string, Part> word in WordParts.Table().GroupBy(static row => $"{row.File} {row.Word}", static row => row.Part))
        {
            word.Should().ContainSingle(word.Key);
        }
    }
}
