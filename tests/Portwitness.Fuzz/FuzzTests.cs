namespace Portwitness.Fuzz;

/// <summary>A fixed number of damaged inputs for every reader: nothing escapes, nothing hangs, memory is bounded, every fault has a place.</summary>
public class FuzzTests
{
    private const int Cases = 400;

    public static TheoryData<string> Readers => [.. FuzzedReader.All.Select(reader => reader.Name)];

    [Theory]
    [MemberData(nameof(Readers))]
    public void DamagedInput_IsTakenAsItShouldBe(string reader)
    {
        FuzzedReader fuzzed = FuzzedReader.All.Single(candidate => candidate.Name == reader);

        Enumerable.Range(0, Cases).Select(number => new FuzzCase(fuzzed, number).Run()).OfType<string>().Should().BeEmpty();
    }

    [Fact]
    public void Case_IsTheSameAgain() =>
        new FuzzCase(FuzzedReader.All[0], 7).Input().Should().Equal(new FuzzCase(FuzzedReader.All[0], 7).Input());

    // What is fuzzed has to be read at all: undamaged seeds of every format give records.
    [Fact]
    public void Seeds_AreGood()
    {
        foreach (FuzzedReader reader in FuzzedReader.All.Where(reader => reader.Name is not ("label" or "product" or "synthesis" or "sink" or "table-mapped" or "gzip")))
        {
            Checks checks = new();
            reader.Read(reader.Seeds[0], new Random(1), checks);
            checks.Broken.Should().BeNull(reader.Name);
            checks.Records.Should().BePositive(reader.Name);
        }
    }
}
