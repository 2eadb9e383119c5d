using System.Diagnostics;
using System.Globalization;
using Grpc.Net.Client;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.History.Stores;

namespace Portwitness.Endurance;

/// <summary>
/// Three nodes with one broker and one database. Nodes are killed with SIGKILL at random and started again; so are, once each, the submitting
/// client and the broker; the database drops all connections, or is restarted where PORTWITNESS_POSTGRES_RESTART names a program that does it.
/// Every product is reported exactly once.
/// </summary>
/// <param name="folder">An empty folder for products.</param>
/// <param name="products">How many products.</param>
/// <param name="kills">How many times a node is killed.</param>
/// <param name="seed">Chooses the moments and the nodes.</param>
internal sealed class KilledNodes(string folder, int products, int kills, int seed)
{
    private const int Nodes = 3;
    private static readonly TimeSpan Stuck = TimeSpan.FromMinutes(5);

    private readonly Random _random = new(seed);
    private string Bench => Path.Combine(folder, "bench");

    /// <summary>Does it.</summary>
    /// <param name="say">Takes what was measured.</param>
    /// <returns>What was not as it should be.</returns>
    public async Task<IReadOnlyList<string>> RunAsync(Action<string> say)
    {
        GeneratedProducts.Write(Bench, products);
        string place = await TestDatabase.CreateAsync();
        using NatsServer broker = new();
        await using IReportStore store = await ReportStores.OpenAsync(place, default);
        Node[] nodes = [.. Enumerable.Range(0, Nodes).Select(_ => new Node("--queue", broker.Address, "--store", place))];
        PortwitnessProgram client = await SubmitAsync(nodes[0]);
        Stopwatch watch = Stopwatch.StartNew();
        try
        {
            for (int kill = 0; kill < kills; kill++)
            {
                await WaitForAsync(store, (long)products * (kill + 1) / (kills + 2), client);
                int node = _random.Next(Nodes);
                nodes[node].KillAndStart();
                say(string.Create(CultureInfo.InvariantCulture, $"{watch.Elapsed.TotalSeconds,7:F1} s: killed node {node + 1}"));
                if (kill == kills / 4)
                {
                    client.Kill();
                    client.Dispose();
                    client = await SubmitAsync(nodes[1]);
                    say("           killed the client, and submitted all of it again by another node");
                }

                if (kill == kills / 2)
                {
                    broker.Kill();
                    await Task.Delay(2000);
                    broker.Start();
                    say("           killed the broker");
                }

                if (kill == kills * 3 / 4)
                {
                    say($"           {await TestDatabase.InterruptAsync(place)}");
                }
            }

            (int exitCode, _, string error) = await client.EndAsync();
            List<string> wrong = exitCode == 0 ? [] : [$"the client ended with {exitCode}: {error}"];
            await WaitForAsync(store, products, client);
            watch.Stop();
            List<string> kept = await KeptSamples.ReadAsync(place);
            wrong.AddRange(kept.Duplicates().Select(static sample => $"sample {sample} is reported twice"));
            wrong.AddRange(Enumerable.Range(0, products).Select(static number => number.ToString(CultureInfo.InvariantCulture)).Except(kept)
                .Select(static sample => $"sample {sample} is not reported"));
            foreach (SubmissionState state in new[] { SubmissionState.Queued, SubmissionState.Parked })
            {
                long left = await store.Submissions.CountAsync(state, default);
                wrong.AddRange(left == 0 ? [] : [$"{left} submissions are {state}"]);
            }

            say(string.Create(
                CultureInfo.InvariantCulture,
                $"{products} products, {Nodes} nodes, {kills} kills: {watch.Elapsed.TotalSeconds:F1} s, {products / watch.Elapsed.TotalSeconds:F0} products/s, {kept.Count} reports"));
            return wrong;
        }
        finally
        {
            client.Dispose();
            foreach (Node node in nodes)
            {
                node.Dispose();
            }
        }
    }

    private async Task<PortwitnessProgram> SubmitAsync(Node node)
    {
        using GrpcChannel there = await node.ConnectAsync();
        return PortwitnessProgram.Start("submit", Bench, "--server", node.Address, "--parallel", "8", "--quiet");
    }

    private static async Task WaitForAsync(IReportStore store, long done, PortwitnessProgram client)
    {
        long last = -1;
        for (Stopwatch still = Stopwatch.StartNew(); ;)
        {
            long now = last;
            try
            {
                now = await store.Submissions.CountAsync(SubmissionState.Done, default);
            }
            catch (StoreException)
            {
                // It is being restarted.
            }

            if (now >= done)
            {
                return;
            }

            if (now != last)
            {
                (last, still) = (now, Stopwatch.StartNew());
            }

            if (still.Elapsed > Stuck)
            {
                string waiting = client.IsRunning ? "the client still submits" : $"the client ended: {(await client.EndAsync()).Error}";
                throw new TimeoutException($"nothing moved for {Stuck.TotalMinutes:0} min; {now} are done, {await store.Submissions.CountAsync(SubmissionState.Queued, default)} wait; {waiting}");
            }

            await Task.Delay(20);
        }
    }
}
