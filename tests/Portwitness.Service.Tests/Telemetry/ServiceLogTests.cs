using Microsoft.Extensions.Logging;

namespace Portwitness.Service.Tests.Telemetry;

/// <summary>What `serve --verbose` shows.</summary>
[Collection(AloneCollection.Name)]
public class ServiceLogTests
{
    [Fact]
    public async Task EveryLevel_ShowsNothingAsAClientSentIt()
    {
        using KeptLogs logs = new();
        await WatchedService.RunAsync(settings: null, logging => logging.SetMinimumLevel(LogLevel.Debug).AddProvider(logs));

        logs.Messages.Should().Contain(message => message.Contains("red\\u001B[31m-rule", StringComparison.Ordinal));
        logs.Messages.Should().Contain(message => message.StartsWith("Checked a product with 4 files", StringComparison.Ordinal));
        foreach (string message in logs.Messages)
        {
            message.Should().NotContainAny("\u001b", "Tarnholt", "100W", "capture.jsonl", "told-by-client");
        }
    }
}
