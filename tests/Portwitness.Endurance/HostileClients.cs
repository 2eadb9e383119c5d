using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Google.Protobuf;
using Grpc.Core;
using Grpc.Net.Client;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.History.Stores;

namespace Portwitness.Endurance;

/// <summary>
/// A good client's answers while others do what they can: 10,000 idle streams, connections that say nothing, wrong tokens, oversize and malformed
/// messages, answers that nobody reads. The good client's p99 stays within three times of its quiet value, and afterwards the service holds no
/// more than before.
/// </summary>
/// <param name="folder">An empty folder for the store.</param>
/// <param name="seconds">How long the good client is measured, each time.</param>
internal sealed class HostileClients(string folder, int seconds)
{
    private const int Streams = 10_000;
    private const int StreamsPerConnection = 250;
    private const int SilentConnections = 200;
    private const int MostFilesMore = 50;

    private static readonly Method<byte[], byte[]> Malformed = new(
        MethodType.Unary, Witness.Descriptor.FullName, "CheckProduct", Marshallers.Create(static bytes => bytes, static bytes => bytes), Marshallers.Create(static bytes => bytes, static bytes => bytes));

    /// <summary>Whether times count; on a machine that does other work besides they do not.</summary>
    public bool JudgesTimes { get; init; } = true;

    public async Task<IReadOnlyList<string>> RunAsync(Action<string> say)
    {
        string place = Path.Combine(folder, "reports.db");
        (string good, string bad) = await TokensAsync(place);
        using Node node = new("--store", place, "--require-tokens", "--patience", "5");
        using GrpcChannel channel = await node.ConnectAsync();
        Witness.WitnessClient client = new(channel);
        await MeasureAsync(client, good, 2);
        double quiet = await MeasureAsync(client, good, seconds);
        (long memoryBefore, int filesBefore) = node.Held;

        ConcurrentDictionary<string, int> met = new();
        using (CancellationTokenSource stop = new())
        {
            Task hostile = Task.WhenAll(
                IdleStreamsAsync(node.Address, bad, met, stop.Token), SilentConnectionsAsync(node.Address, stop.Token), NonsenseAsync(node.Address, bad, met, stop.Token),
                UnreadAnswersAsync(node.Address, bad, met, stop.Token));
            await Task.Delay(TimeSpan.FromSeconds(Math.Min(5, seconds)), CancellationToken.None);
            double beset = await MeasureAsync(client, good, seconds);
            await stop.CancelAsync();
            await hostile;
            foreach ((string what, int times) in met.OrderBy(static one => one.Key, StringComparer.Ordinal))
            {
                say(string.Create(CultureInfo.InvariantCulture, $"{what}: {times}"));
            }

            say(string.Create(CultureInfo.InvariantCulture, $"the good client's p99: {quiet:F1} ms when quiet, {beset:F1} ms beside the others"));
            List<string> wrong = JudgesTimes && beset > 3 * quiet ? [$"p99 went from {quiet:F1} ms to {beset:F1} ms"] : [];
            wrong.AddRange(await LeftAsync(node, filesBefore, memoryBefore, say));
            return wrong;
        }
    }

    private static async Task<(string Good, string Bad)> TokensAsync(string place)
    {
        await using IReportStore store = await ReportStores.OpenAsync(place, default);
        return ((await store.Tokens.CreateAsync("good", TokenRole.Submit, null, default)).Secret, (await store.Tokens.CreateAsync("bad", TokenRole.Submit, null, default)).Secret);
    }

    private static Metadata With(string token) => new() { { "authorization", $"Bearer {token}" } };

    // Every answer counts: who is refused fails the run.
    private static async Task<double> MeasureAsync(Witness.WitnessClient client, string token, int time)
    {
        List<double> taken = [];
        Stopwatch watch = Stopwatch.StartNew();
        for (int number = 0; watch.Elapsed < TimeSpan.FromSeconds(time); number++)
        {
            long begun = Stopwatch.GetTimestamp();
            await client.CheckProductAsync(DemoRequests.Of(number), With(token), deadline: DateTime.UtcNow.AddSeconds(60));
            taken.Add(Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
        }

        return Load.Percentile(taken, 99);
    }

    // Streams that begin and say nothing more; those beyond the limit are refused at once, the others after the service's patience.
    private static Task IdleStreamsAsync(string address, string token, ConcurrentDictionary<string, int> met, CancellationToken stop) => Task.WhenAll(
        Enumerable.Range(0, Streams / StreamsPerConnection).Select(async _ =>
        {
            using GrpcChannel channel = GrpcChannel.ForAddress(address);
            Witness.WitnessClient client = new(channel);
            await Task.WhenAll(Enumerable.Range(0, StreamsPerConnection).Select(async number =>
            {
                using AsyncDuplexStreamingCall<DecodeRequest, DecodeResponse> call = client.Decode(With(token), cancellationToken: stop);
                try
                {
                    await call.RequestStream.WriteAsync(new DecodeRequest { Options = new DecodeOptions { File = "../../../etc/passwd" } }, stop);
                    await call.ResponseStream.MoveNext(stop);
                }
                catch (Exception exception) when (exception is RpcException or IOException or InvalidOperationException or OperationCanceledException)
                {
                    Count(met, stop.IsCancellationRequested ? "idle stream, held to the end" : "idle stream", exception);
                }
            }));
        }));

    private static async Task SilentConnectionsAsync(string address, CancellationToken stop)
    {
        int port = new Uri(address).Port;
        List<Socket> sockets = [];
        try
        {
            for (int number = 0; number < SilentConnections; number++)
            {
                Socket socket = new(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
                sockets.Add(socket);
                await socket.ConnectAsync(new IPEndPoint(IPAddress.Loopback, port), stop);
                // Nothing, half of HTTP/2's preface, or what is no HTTP at all.
                await socket.SendAsync(number % 3 == 0 ? default : number % 3 == 1 ? "PRI * HTTP/2.0\r\n"u8.ToArray() : new byte[] { 0, 1, 2, 3 }, stop);
            }

            await Task.Delay(Timeout.Infinite, stop);
        }
        catch (Exception exception) when (exception is OperationCanceledException or SocketException)
        {
        }
        finally
        {
            sockets.ForEach(static socket => socket.Dispose());
        }
    }

    private static async Task NonsenseAsync(string address, string token, ConcurrentDictionary<string, int> met, CancellationToken stop)
    {
        using GrpcChannel channel = GrpcChannel.ForAddress(address, new GrpcChannelOptions { MaxSendMessageSize = null });
        Witness.WitnessClient client = new(channel);
        byte[] large = new byte[5 << 20];
        for (int number = 0; !stop.IsCancellationRequested; number++)
        {
            try
            {
                Metadata headers = With(number % 2 == 0 ? token : $"pw_{number:x64}");
                if (number % 8 == 4)
                {
                    await channel.CreateCallInvoker().AsyncUnaryCall(Malformed, null, new CallOptions(headers, cancellationToken: stop), [0xFF, 0xFF, 0xFF]).ResponseAsync;
                }

                await (number % 4 < 2
                    ? client.CheckProductAsync(new SubmitRequest { Files = { new SubmittedFile { File = "a", Data = UnsafeByteOperations.UnsafeWrap(large) } } }, headers, cancellationToken: stop).ResponseAsync
                    : client.CheckProductAsync(
                        new SubmitRequest { Options = new CheckOptions { Product = new ProductFile { File = "../x", Text = "captures: [{file: ../../etc/passwd}]" } } }, headers, cancellationToken: stop).ResponseAsync);
            }
            catch (RpcException exception)
            {
                Count(met, number % 8 == 4 ? "malformed" : number % 4 < 2 ? "oversize" : "path or token", exception);
            }

            await Task.Delay(5, CancellationToken.None);
        }
    }

    // Asks for answers and reads none.
    private static async Task UnreadAnswersAsync(string address, string token, ConcurrentDictionary<string, int> met, CancellationToken stop)
    {
        using GrpcChannel channel = GrpcChannel.ForAddress(address);
        AsyncDuplexStreamingCall<CheckManyRequest, CheckManyResponse>[] calls =
            [.. Enumerable.Range(0, 8).Select(_ => new Witness.WitnessClient(channel).CheckMany(With(token), cancellationToken: stop))];
        await Task.WhenAll(calls.Select(async call =>
        {
            try
            {
                for (int number = 0; number < 2000; number++)
                {
                    await call.RequestStream.WriteAsync(new CheckManyRequest { Id = "a", Product = DemoRequests.Of(number) }, stop);
                }
            }
            catch (Exception exception) when (exception is RpcException or IOException or InvalidOperationException or OperationCanceledException)
            {
                Count(met, "answers not read", exception);
            }
        }));
        foreach (AsyncDuplexStreamingCall<CheckManyRequest, CheckManyResponse> call in calls)
        {
            call.Dispose();
        }
    }

    private static void Count(ConcurrentDictionary<string, int> met, string what, Exception exception) => met.AddOrUpdate(
        $"{what}, {(exception is RpcException refused ? refused.StatusCode.ToString() : "ended")}", 1, static (_, times) => times + 1);

    private static async Task<IReadOnlyList<string>> LeftAsync(Node node, int filesBefore, long memoryBefore, Action<string> say)
    {
        // Connections are given up after the service's patience, and memory is given back in its own time.
        for (int tries = 0; tries < 60 && node.Held.Files > filesBefore + MostFilesMore; tries++)
        {
            await Task.Delay(500);
        }

        (long memory, int files) = node.Held;
        say(string.Create(CultureInfo.InvariantCulture, $"open files {filesBefore} before, {files} after; memory {memoryBefore >> 20} MiB before, {memory >> 20} MiB after"));
        return files <= filesBefore + MostFilesMore ? [] : [$"{files - filesBefore} files are open that were not before"];
    }
}
