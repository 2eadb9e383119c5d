using System.Diagnostics;
using System.Globalization;
using Grpc.Net.Client;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.History.Stores;

namespace Portwitness.Endurance;

/// <summary>How much faster the same submissions are done by two processes with one worker each than by one.</summary>
/// <param name="products">How many products.</param>
internal sealed class Scaling(int products)
{
    public async Task<IReadOnlyList<string>> RunAsync(Action<string> say)
    {
        foreach (int nodes in new[] { 1, 2 })
        {
            string place = await TestDatabase.CreateAsync();
            using NatsServer broker = new();
            await using IReportStore store = await ReportStores.OpenAsync(place, default);
            using (Node accepting = new("--queue", broker.Address, "--store", place, "--workers", "0", "--calls-per-second", "100000"))
            {
                using GrpcChannel channel = await accepting.ConnectAsync();
                Witness.WitnessClient client = new(channel);
                await Parallel.ForEachAsync(Enumerable.Range(0, products), async (number, stop) => await client.SubmitAsync(DemoRequests.Of(number), cancellationToken: stop));
            }

            Node[] working = [.. Enumerable.Range(0, nodes).Select(_ => new Node("--queue", broker.Address, "--store", place, "--workers", "1"))];
            while (await store.Submissions.CountAsync(SubmissionState.Done, default) == 0)
            {
                await Task.Delay(10);
            }

            Stopwatch watch = Stopwatch.StartNew();
            long begun = await store.Submissions.CountAsync(SubmissionState.Done, default);
            while (await store.Submissions.CountAsync(SubmissionState.Done, default) < products)
            {
                await Task.Delay(50);
            }

            say(string.Create(CultureInfo.InvariantCulture, $"{nodes} x 1 worker: {(products - begun) / watch.Elapsed.TotalSeconds:F0} products/s"));
            foreach (Node node in working)
            {
                node.Dispose();
            }
        }

        return [];
    }
}
