using System.Threading.Channels;
using Grpc.Core;

namespace Portwitness.Service.Hosting;

/// <summary>One direction of a call within a process. A message is handed over, not copied, and at most one waits to be read.</summary>
/// <param name="untilRead">
/// Whether writing ends only when the reader has asked for the next message, so that a writer may use its buffers again.
/// For one direction of a call only: two that wait for each other would wait for ever.
/// </param>
/// <param name="stop">Ends what waits.</param>
internal sealed class Handover<T>(bool untilRead, CancellationToken stop) : IAsyncStreamReader<T>, IClientStreamWriter<T>, IServerStreamWriter<T>
    where T : class
{
    private readonly Channel<(T Message, TaskCompletionSource Done)> _messages =
        Channel.CreateBounded<(T Message, TaskCompletionSource Done)>(1);

    private TaskCompletionSource? _inHand;
    private T? _current;

    /// <inheritdoc/>
    public T Current => _current ?? throw new InvalidOperationException("No message was read yet.");

    /// <summary>Without effect: nothing is compressed or buffered here.</summary>
    public WriteOptions? WriteOptions { get; set; }

    /// <inheritdoc/>
    public Task WriteAsync(T message) => WriteAsync(message, stop);

    /// <summary>Hands one message over.</summary>
    /// <exception cref="InvalidOperationException">The direction was completed, or its reader has left.</exception>
    public async Task WriteAsync(T message, CancellationToken cancellationToken)
    {
        using CancellationTokenSource either = CancellationTokenSource.CreateLinkedTokenSource(stop, cancellationToken);
        TaskCompletionSource done = new(TaskCreationOptions.RunContinuationsAsynchronously);
        try
        {
            await _messages.Writer.WriteAsync((message, done), either.Token);
        }
        catch (ChannelClosedException closed)
        {
            throw new InvalidOperationException("The call has ended.", closed);
        }

        if (untilRead)
        {
            await done.Task.WaitAsync(either.Token);
        }
    }

    /// <inheritdoc/>
    public Task CompleteAsync()
    {
        Complete();
        return Task.CompletedTask;
    }

    /// <summary>The writer has no more; with an exception, its reader is told of it.</summary>
    public void Complete(Exception? failure = null) => _messages.Writer.TryComplete(failure);

    /// <summary>The reader wants no more: what waits to be read is dropped, and writing fails.</summary>
    public void Leave()
    {
        Complete();
        Interlocked.Exchange(ref _inHand, null)?.TrySetResult();
        while (_messages.Reader.TryRead(out (T Message, TaskCompletionSource Done) dropped))
        {
            dropped.Done.TrySetException(new InvalidOperationException("The call has ended."));
        }
    }

    /// <inheritdoc/>
    public async Task<bool> MoveNext(CancellationToken cancellationToken)
    {
        Interlocked.Exchange(ref _inHand, null)?.TrySetResult();
        while (await _messages.Reader.WaitToReadAsync(cancellationToken))
        {
            if (_messages.Reader.TryRead(out (T Message, TaskCompletionSource Done) read))
            {
                _current = read.Message;
                _inHand = read.Done;
                return true;
            }
        }

        return false;
    }
}
