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

    [NeedsServersFact]
    public async Task KilledNodes_ReportEveryProductOnce()
    {
        List<string> said = [];

        (await new KilledNodes(_folder.FullName, products: 60, kills: 4, seed: 1).RunAsync(said.Add)).Should().BeEmpty();

        said[^1].Should().Contain("60 reports");
    }

    [Fact]
    public async Task HostileClients_LeaveNothingBehind()
    {
        List<string> said = [];

        (await new HostileClients(_folder.FullName, seconds: 6) { JudgesTimes = false }.RunAsync(said.Add)).Should().BeEmpty();

        said.Should().NotBeEmpty();
    }
}

/// <summary>A test that needs a broker and a database.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class NeedsServersFactAttribute : FactAttribute
{
    public NeedsServersFactAttribute()
    {
        if (Environment.GetEnvironmentVariable("CI") != "true" && (!TestDatabase.IsThere || !File.Exists(NatsServer.Program)))
        {
            Skip = $"Install Debian's packages postgresql and {NatsServer.Package} and set {TestDatabase.Variable}, or run tests/run.";
        }
    }
}
