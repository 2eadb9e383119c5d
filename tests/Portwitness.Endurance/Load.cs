using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using Grpc.Core;
using Grpc.Net.Client;
using Portwitness.Contracts.V1;

namespace Portwitness.Endurance;

/// <summary>What one node sustains, for clients that each wait for one report after another; and how its memory goes over a long time.</summary>
/// <param name="folder">An empty folder for the store.</param>
/// <param name="seconds">How long each number of clients goes on; with one number, the whole time.</param>
internal sealed class Load(string folder, int seconds)
{
    private int _number;

    /// <summary>1, 16 and 64 clients.</summary>
    public async Task<IReadOnlyList<string>> RunAsync(Action<string> say)
    {
        using Node node = new("--store", Path.Combine(folder, "reports.db"), "--calls-per-second", "100000");
        using GrpcChannel channel = await node.ConnectAsync();
        Witness.WitnessClient client = new(channel);
        await MeasureAsync(client, 4, TimeSpan.FromSeconds(2));
        foreach (int clients in new[] { 1, 16, 64 })
        {
            say(await MeasureAsync(client, clients, TimeSpan.FromSeconds(seconds)) + string.Create(CultureInfo.InvariantCulture, $", {node.Held.Memory >> 20} MiB"));
        }

        return [];
    }

    /// <summary>16 clients for the whole time; the memory of the last third may not be more than a fifth above that of the second.</summary>
    public async Task<IReadOnlyList<string>> SoakAsync(Action<string> say)
    {
        using Node node = new("--store", Path.Combine(folder, "reports.db"), "--calls-per-second", "100000");
        using GrpcChannel channel = await node.ConnectAsync();
        Witness.WitnessClient client = new(channel);
        const int Parts = 12;
        List<long> memory = [];
        for (int part = 0; part < Parts; part++)
        {
            string measured = await MeasureAsync(client, 16, TimeSpan.FromSeconds(seconds / (double)Parts));
            memory.Add(node.Held.Memory);
            say(string.Create(CultureInfo.InvariantCulture, $"{measured}, {memory[^1] >> 20} MiB, {node.Held.Files} files open"));
        }

        long before = memory[(Parts / 3)..(2 * Parts / 3)].Max();
        long after = memory[(2 * Parts / 3)..].Max();
        return after <= before * 6 / 5 ? [] : [$"memory grows: {before >> 20} MiB, then {after >> 20} MiB"];
    }

    private async Task<string> MeasureAsync(Witness.WitnessClient client, int clients, TimeSpan time)
    {
        ConcurrentBag<double> taken = [];
        Stopwatch watch = Stopwatch.StartNew();
        await Task.WhenAll(Enumerable.Range(0, clients).Select(_ => Task.Run(async () =>
        {
            while (watch.Elapsed < time)
            {
                SubmitRequest request = DemoRequests.Of(Interlocked.Increment(ref _number));
                long begun = Stopwatch.GetTimestamp();
                try
                {
                    await client.CheckProductAsync(request);
                }
                catch (RpcException exception) when (exception.StatusCode == StatusCode.ResourceExhausted)
                {
                    continue;
                }

                taken.Add(Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
            }
        })));
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{clients,3} clients: {taken.Count / watch.Elapsed.TotalSeconds,6:F0} products/s, p50 {Percentile(taken, 50):F1} ms, p99 {Percentile(taken, 99):F1} ms");
    }

    /// <summary>The value that so many percent do not exceed.</summary>
    public static double Percentile(IEnumerable<double> values, int percent)
    {
        double[] sorted = [.. values.Order()];
        return sorted.Length == 0 ? double.NaN : sorted[Math.Min(sorted.Length - 1, sorted.Length * percent / 100)];
    }
}
