namespace Portwitness.Endurance;

/// <summary>Short forms of what Program.cs does at length.</summary>
public sealed class EnduranceTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("portwitness-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task KilledBatch_ReportsEveryProductOnce()
    {
        List<string> said = [];

        (await new KilledBatch(_folder.FullName, products: 90, kills: 3, seed: 1).RunAsync(said.Add)).Should().BeEmpty();

        said.Should().HaveCount(5);
    }
}
