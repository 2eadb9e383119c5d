using Grpc.Core;
using Portwitness.Service.Access;

namespace Portwitness.Service.Hosting;

/// <summary>One call within the process: its two directions, what cancels it, and how it ended.</summary>
internal sealed class InProcessCall<TRequest, TResponse> : IDisposable
    where TRequest : class
    where TResponse : class
{
    private readonly Lock _ending = new();
    private readonly CancellationTokenSource _stop;
    private readonly InProcessContext _context;
    private volatile RpcException? _failure;
    private volatile bool _ended;

    public InProcessCall(IMethod method, CallOptions options)
    {
        _stop = CancellationTokenSource.CreateLinkedTokenSource(options.CancellationToken);
        if (options.Deadline is { } deadline && deadline != DateTime.MaxValue)
        {
            TimeSpan left = deadline.ToUniversalTime() - DateTime.UtcNow;
            _stop.CancelAfter(left > TimeSpan.Zero ? left : TimeSpan.Zero);
        }

        _context = new InProcessContext(method.FullName, options, _stop.Token);
        Requests = new Handover<TRequest>(untilRead: true, _stop.Token);
        Answers = new Handover<TResponse>(untilRead: false, _stop.Token);
        Responses = new AnswerReader(Answers);
    }

    /// <summary>From the caller to the service.</summary>
    public Handover<TRequest> Requests { get; }

    /// <summary>From the service to the caller.</summary>
    public Handover<TResponse> Answers { get; }

    /// <summary>The answers as the caller reads them.</summary>
    public IAsyncStreamReader<TResponse> Responses { get; }

    public Task<Metadata> HeadersAsync { get; } = Task.FromResult(Metadata.Empty);

    /// <summary>Lets the service answer, beside the caller.</summary>
    public void Run(Func<ServerCallContext, Task> serve) => _ = Task.Run(async () =>
    {
        try
        {
            await serve(_context);
            _context.CancellationToken.ThrowIfCancellationRequested();
        }
        catch (RpcException failure)
        {
            _failure = failure;
        }
        catch (OperationCanceledException)
        {
            _failure = new RpcException(new Status(StatusCode.Cancelled, "The call was stopped."));
        }
        catch (Exception exception)
        {
            _failure = new RpcException(new Status(StatusCode.Unknown, $"The service failed: {exception.GetType().Name}.", exception));
        }

        lock (_ending)
        {
            _ended = true;
            Requests.Leave();
            Answers.Complete(_failure);

            // Callers need not dispose of a call with one answer, and the token that it is linked to may live as long as the process.
            _stop.Dispose();
        }
    });

    /// <summary>The one answer of a call that has one.</summary>
    public async Task<TResponse> SingleAsync()
    {
        if (!await Responses.MoveNext(CancellationToken.None))
        {
            throw new RpcException(new Status(StatusCode.Internal, "The service ended without an answer."));
        }

        TResponse answer = Responses.Current;
        await Responses.MoveNext(CancellationToken.None);
        return answer;
    }

    public Status GetStatus() => !_ended
        ? throw new InvalidOperationException("The call has not ended.")
        : _failure?.Status ?? Status.DefaultSuccess;

    public Metadata GetTrailers() => _failure?.Trailers ?? Metadata.Empty;

    public void Dispose()
    {
        lock (_ending)
        {
            if (!_ended)
            {
                _stop.Cancel();
            }
        }

        Answers.Leave();
    }

    // Tells of what stopped the call as a channel would, by an exception with a status.
    private sealed class AnswerReader(Handover<TResponse> answers) : IAsyncStreamReader<TResponse>
    {
        public TResponse Current => answers.Current;

        public async Task<bool> MoveNext(CancellationToken cancellationToken)
        {
            try
            {
                return await answers.MoveNext(cancellationToken);
            }
            catch (OperationCanceledException) when (!cancellationToken.IsCancellationRequested)
            {
                throw new RpcException(new Status(StatusCode.Cancelled, "The call was stopped."));
            }
        }
    }
}
