namespace Portwitness.Cli.Files;

/// <summary>
/// A pipe or a device that was named on the command line, such as what "&lt;(…)" gives. Opening waits for the other side, and is therefore left to
/// the first reading, which can be given up.
/// </summary>
internal sealed class LatePipe(string path) : Stream
{
    private Task<FileStream>? _opening;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public override async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default)
    {
        _opening ??= Task.Run(() => new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite, bufferSize: 0), CancellationToken.None);
        FileStream stream = await _opening.WaitAsync(cancellationToken);
        return await stream.ReadAsync(buffer, CancellationToken.None).AsTask().WaitAsync(cancellationToken);
    }

    public override Task<int> ReadAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
        ReadAsync(buffer.AsMemory(offset, count), cancellationToken).AsTask();

    public override int Read(byte[] buffer, int offset, int count) => ReadAsync(buffer, offset, count, CancellationToken.None).GetAwaiter().GetResult();

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing && _opening is { IsCompletedSuccessfully: true })
        {
            _opening.Result.Dispose();
        }

        base.Dispose(disposing);
    }
}
