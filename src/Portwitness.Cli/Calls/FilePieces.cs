using System.Buffers;
using Google.Protobuf;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Calls;

/// <summary>Reads files in pieces of a size that suits both disks and messages.</summary>
internal sealed class FilePieces(Progress progress) : IDisposable
{
    private const int PieceBytes = 128 << 10;

    private readonly Dictionary<Input, (Stream Stream, long Offset)> _open = [];
    private byte[] _buffer = ArrayPool<byte>.Shared.Rent(PieceBytes);

    /// <summary>Hands over piece after piece; each is valid until the task that it was given to has ended.</summary>
    public async Task SendAsync(Stream stream, string name, Func<ByteString, Task> send, CancellationToken cancellation)
    {
        progress.Begin(name, stream.CanSeek ? stream.Length : null);
        for (long offset = 0; ;)
        {
            int length = await ReadAsync(stream, name, offset, cancellation);
            if (length == 0)
            {
                progress.End();
                return;
            }

            await send(UnsafeByteOperations.UnsafeWrap(_buffer.AsMemory(0, length)));
            offset += length;
        }
    }

    /// <summary>The next piece of a file that is wanted in turns with another one; null at its end. It is valid until the next call.</summary>
    public async Task<ByteString?> NextAsync(NeedPiece need, Func<string, Stream> open, CancellationToken cancellation)
    {
        if (!_open.TryGetValue(need.Input, out (Stream Stream, long Offset) file))
        {
            file = (open(need.File), 0);
            _open[need.Input] = file;
            if (need.Input == Input.Capture)
            {
                progress.Begin(need.File, file.Stream.CanSeek ? file.Stream.Length : null);
            }
        }

        int length = await ReadAsync(file.Stream, need.File, file.Offset, cancellation, counts: need.Input == Input.Capture);
        if (length > 0)
        {
            _open[need.Input] = (file.Stream, file.Offset + length);
            return UnsafeByteOperations.UnsafeWrap(_buffer.AsMemory(0, length));
        }

        await file.Stream.DisposeAsync();
        _open.Remove(need.Input);
        if (need.Input == Input.Capture)
        {
            progress.End();
        }

        return null;
    }

    /// <summary>Whether a piece of an input was given and its end not yet.</summary>
    public bool IsOpen(Input input) => _open.ContainsKey(input);

    /// <summary>The other side has answered and is done with every piece, so that other files may use their room. After a call that broke off it is not.</summary>
    public void Release()
    {
        ArrayPool<byte>.Shared.Return(_buffer);
        _buffer = [];
    }

    public void Dispose()
    {
        progress.End();
        foreach ((Stream stream, _) in _open.Values)
        {
            stream.Dispose();
        }
    }

    private async Task<int> ReadAsync(Stream stream, string name, long offset, CancellationToken cancellation, bool counts = true)
    {
        try
        {
            // Standard input cannot be cancelled; waiting for it can.
            int length = await stream.ReadAsync(_buffer, cancellation).AsTask().WaitAsync(cancellation);
            progress.Add(counts ? length : 0);
            return length;
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure($"{name}: reading failed at byte {offset}: {exception.Message}");
        }
    }
}
