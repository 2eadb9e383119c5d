namespace Portwitness.Labels.Tests;

public sealed class CorrectionTests
{
    [Fact]
    public void Correction_IsReadInPlaceOfThePrintedWords()
    {
        Label label = LabelReader.Read("C1: 5V⎓3A\nC2: 9V#2A 5V⎓3A", [new(2, "9V#2A", "9V⎓2.22A")], out IReadOnlyList<LabelCorrection> unused);

        unused.Should().BeEmpty();
        label.Unread.Should().BeEmpty();
        LabelCase.Describe(label).Should().Be("""
            1:1 C1
            1:5 C1 5 V 3 A step 1000
            2:1 C2
            2:5 C2 9 V 2.22 A step 10
            2:11 C2 5 V 3 A step 1000
            2:5 repaired byhand «9V#2A» to «9V⎓2.22A»
            """.ReplaceLineEndings("\n"));
    }

    [Theory]
    [InlineData(1, "9V#2A")]
    [InlineData(3, "9V#2A")]
    [InlineData(2, "A")]
    [InlineData(2, "")]
    public void CorrectionWithoutItsWordsOnceInTheLine_IsHandedBack(int line, string printed)
    {
        LabelCorrection correction = new(line, printed, "1V⎓1A");

        Label label = LabelReader.Read("C1: 5V⎓3A\r\nC2: 9V#2A 5V⎓3A", [correction], out IReadOnlyList<LabelCorrection> unused);

        unused.Should().Equal(correction);
        label.Repairs.Should().BeEmpty();
    }

    [Fact]
    public void OverlappingCorrections_TheFirstCounts()
    {
        LabelReader.Read("C1: 9V#2A", [new(1, "9V#2A", "9V⎓2A"), new(1, "#2A", "⎓3A")], out IReadOnlyList<LabelCorrection> unused)
            .Outputs[0].Fixed[0].Current.Milliamperes.Should().Be(2000);
        unused.Should().ContainSingle();
    }
}
