using NATS.Client.Core;
using NATS.Client.JetStream;
using NATS.Client.JetStream.Models;

namespace Portwitness.Queue;

/// <summary>
/// A queue in a NATS server with JetStream, which several nodes share. What was added is on the server's disk; a key that nobody says is done
/// comes again after a while. Each key is a subject that holds one message: the server refuses a second one. Stream and consumer are made when
/// they are missing, also after the server has lost its disk.
/// </summary>
internal sealed class NatsQueue : IWorkQueue
{
    private const string StreamName = "PORTWITNESS_KEYS";
    private const string ConsumerName = "nodes";
    private const string SubjectPrefix = "portwitness.key.";

    // Keys that are worked on at once, by all nodes together.
    private const int MaxAtOnce = 10_000;

    private static readonly TimeSpan AnswerTime = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan LongestAsk = TimeSpan.FromSeconds(20);
    private static readonly TimeSpan PauseWhileAway = TimeSpan.FromSeconds(1);

    private readonly QueueAddress _address;
    private readonly TimeSpan _workTime;
    private readonly NatsConnection _connection;
    private readonly NatsJSContext _context;
    private readonly SemaphoreSlim _making = new(1);
    private INatsJSConsumer? _consumer;

    /// <summary>A queue at an address; it is reached when it is first used.</summary>
    /// <param name="address">Where.</param>
    /// <param name="workTime">After so long without a word of it a key is given to somebody else.</param>
    public NatsQueue(QueueAddress address, TimeSpan workTime)
    {
        (_address, _workTime) = (address, workTime);
        _connection = new NatsConnection(NatsOpts.Default with
        {
            Name = "portwitness",
            Url = address.Servers,
            AuthOpts = address.Authentication,
            TlsOpts = NatsTlsOpts.Default with { Mode = address.IsSecure ? TlsMode.Require : TlsMode.Auto },
            ConnectTimeout = TimeSpan.FromSeconds(3),
            RequestTimeout = AnswerTime,
            ReconnectWaitMin = TimeSpan.FromMilliseconds(200),
            ReconnectWaitMax = TimeSpan.FromSeconds(2),

            // The server may be restarted with other words for a moment; keep asking.
            IgnoreAuthErrorAbort = true,
        });
        _context = new NatsJSContext(_connection);
    }

    /// <inheritdoc/>
    public string Place => _address.Place;

    /// <inheritdoc/>
    public Task<bool> AddAsync(string key, CancellationToken cancellation) => AskAsync(async token =>
    {
        await ConsumerAsync(token);
        if ((await PublishAsync(key, token)).Error is null)
        {
            return true;
        }

        // The server has one code for all that it cannot store, a second message of a subject included: whether the key is there tells them apart.
        INatsJSStream stream = await _context.GetStreamAsync(StreamName, new StreamInfoRequest { SubjectsFilter = SubjectPrefix + key }, token);
        if (stream.Info.State.Subjects?.Count > 0)
        {
            return false;
        }

        // It has been done in between, or the server says why.
        (await PublishAsync(key, token)).EnsureSuccess();
        return true;
    }, cancellation);

    /// <inheritdoc/>
    public async Task<WorkItem> TakeAsync(CancellationToken cancellation)
    {
        while (true)
        {
            cancellation.ThrowIfCancellationRequested();
            try
            {
                INatsJSConsumer consumer = await ConsumerAsync(cancellation);
                INatsJSMsg<string>? message = await consumer.NextAsync(
                    NatsUtf8PrimitivesSerializer<string>.Default, new NatsJSNextOpts { Expires = LongestAsk }, cancellation);
                if (message is { Data: { Length: > 0 } key })
                {
                    return new Item(this, message, key);
                }

                // No key: nobody could ever say that it is done, so it would come again for ever.
                if (message is not null)
                {
                    await message.AckTerminateAsync(cancellationToken: cancellation);
                }
            }
            catch (Exception exception) when (IsOfServer(exception) || (exception is OperationCanceledException && !cancellation.IsCancellationRequested))
            {
                _consumer = null;
                await Task.Delay(PauseWhileAway, cancellation);
            }
        }
    }

    /// <inheritdoc/>
    public Task<long> CountWaitingAsync(CancellationToken cancellation) => AskAsync(async token =>
    {
        await ConsumerAsync(token);
        return (long)(await _context.GetStreamAsync(StreamName, cancellationToken: token)).Info.State.Messages;
    }, cancellation);

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _connection.DisposeAsync();
        _making.Dispose();
    }

    private ValueTask<PubAckResponse> PublishAsync(string key, CancellationToken cancellation) =>
        _context.PublishAsync(SubjectPrefix + key, key, NatsUtf8PrimitivesSerializer<string>.Default, cancellationToken: cancellation);

    private async Task<INatsJSConsumer> ConsumerAsync(CancellationToken cancellation)
    {
        if (_consumer is { } known)
        {
            return known;
        }

        await _making.WaitAsync(cancellation);
        try
        {
            if (_consumer is null)
            {
                await _context.CreateOrUpdateStreamAsync(
                    new StreamConfig(StreamName, [SubjectPrefix + "*"])
                    {
                        Retention = StreamConfigRetention.Workqueue, Storage = StreamConfigStorage.File,
                        MaxMsgsPerSubject = 1, Discard = StreamConfigDiscard.New, DiscardNewPerSubject = true,
                    },
                    cancellation);
                _consumer = await _context.CreateOrUpdateConsumerAsync(
                    StreamName,
                    new ConsumerConfig(ConsumerName) { AckPolicy = ConsumerConfigAckPolicy.Explicit, AckWait = _workTime, MaxDeliver = -1, MaxAckPending = MaxAtOnce }, cancellation);
            }

            return _consumer;
        }
        finally
        {
            _making.Release();
        }
    }

    // Whatever is asked of a server that is away ends in time, and says so without what the address holds.
    private async Task<T> AskAsync<T>(Func<CancellationToken, Task<T>> ask, CancellationToken cancellation)
    {
        using CancellationTokenSource patience = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        patience.CancelAfter(AnswerTime);
        try
        {
            return await ask(patience.Token);
        }
        catch (Exception exception) when (!cancellation.IsCancellationRequested && (IsOfServer(exception) || exception is OperationCanceledException))
        {
            _consumer = null;
            string why = exception switch
            {
                NatsJSApiException { Error.Code: 503 } => "has no JetStream; start it with -js",
                NatsJSException or NatsServerException => $"refuses: {exception.Message}",
                _ => "does not answer; check the address, user and password, and that it runs",
            };
            throw new QueueException($"{Place}: {why}.", exception);
        }
    }

    private static bool IsOfServer(Exception exception) => exception is NatsException or IOException or System.Net.Sockets.SocketException or ObjectDisposedException;

    private sealed class Item(NatsQueue queue, INatsJSMsg<string> message, string key) : WorkItem
    {
        public override string Key => key;

        public override long Delivery => (long)(message.Metadata?.NumDelivered ?? 1);

        // Acknowledged twice over: when this returns, the server has taken it out.
        public override Task DoneAsync(CancellationToken cancellation) =>
            TellAsync(token => message.AckAsync(new AckOpts { DoubleAck = true }, token), cancellation);

        public override Task AgainAsync(TimeSpan pause, CancellationToken cancellation) => TellAsync(token => message.NakAsync(delay: pause, cancellationToken: token), cancellation);

        public override Task StillWorkingAsync(CancellationToken cancellation) => TellAsync(token => message.AckProgressAsync(cancellationToken: token), cancellation);

        private Task<bool> TellAsync(Func<CancellationToken, ValueTask> tell, CancellationToken cancellation) => queue.AskAsync(async token =>
        {
            await tell(token);
            return true;
        }, cancellation);
    }
}
