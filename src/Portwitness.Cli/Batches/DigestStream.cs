using System.Security.Cryptography;

namespace Portwitness.Cli.Batches;

/// <summary>Reads another stream and tells the SHA-256 of it at its end.</summary>
internal sealed class DigestStream(Stream inner, Action<string> atEnd) : Stream
{
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public override int Read(byte[] buffer, int offset, int count)
    {
        int length = inner.Read(buffer, offset, count);
        Digest(buffer.AsSpan(offset, length), count);
        return length;
    }

    public override async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default)
    {
        int length = await inner.ReadAsync(buffer, cancellationToken);
        Digest(buffer.Span[..length], buffer.Length);
        return length;
    }

    public override Task<int> ReadAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
        ReadAsync(buffer.AsMemory(offset, count), cancellationToken).AsTask();

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            inner.Dispose();
            _hash.Dispose();
        }

        base.Dispose(disposing);
    }

    private void Digest(ReadOnlySpan<byte> read, int wanted)
    {
        if (read.IsEmpty && wanted > 0)
        {
            atEnd(Convert.ToHexStringLower(_hash.GetCurrentHash()));
        }

        _hash.AppendData(read);
    }
}
