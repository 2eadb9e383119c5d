using System.IO.Compression;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.Archives;

/// <summary>Unpacks a compressed input as it comes and hands the content on, up to a limit of what little may become much.</summary>
internal sealed class GzipInput : IInputReader, IDisposable
{
    /// <summary>What any input may unpack to, in bytes.</summary>
    private const long FreeBytes = 64 << 20;

    /// <summary>Beyond that, how many times its packed length. Captures reach a tenth of it; made to harm, a file reaches 1000.</summary>
    private const int MostExpansion = 250;

    /// <summary>The shortest file: header, an empty block and the trailer (RFC 1952, 2.3).</summary>
    private const int FewestBytes = 18;

    private const int PieceBytes = 16 << 10;

    private readonly IInputReader _content;
    private readonly FaultLog _faults;
    private readonly Feed _feed = new();
    private readonly GZipStream _stream;
    private readonly byte[] _piece = new byte[PieceBytes];
    private long _packed;
    private long _unpacked;
    private uint _lastFour;
    private bool _stopped;
    private bool _damaged;

    public GzipInput(IInputReader content, FaultLog faults)
    {
        (_content, _faults) = (content, faults);
        _stream = new GZipStream(_feed, CompressionMode.Decompress);
    }

    /// <summary>Whether an input begins as gzip does (RFC 1952, 2.3.1): two bytes of magic, then the one method there is.</summary>
    public static bool IsLikely(ReadOnlySpan<byte> start) => start.StartsWith((ReadOnlySpan<byte>)[0x1F, 0x8B, 8]);

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> piece)
    {
        foreach (byte last in piece[^Math.Min(4, piece.Length)..])
        {
            _lastFour = (_lastFour >> 8) | ((uint)last << 24);
        }

        // The stream is fed always in the same pieces: how far it comes in damaged data depends on them.
        while (!piece.IsEmpty && !_stopped)
        {
            int taken = _feed.Give(piece);
            piece = piece[taken..];
            _packed += taken;
            if (_feed.IsFull)
            {
                Unpack();
            }
        }
    }

    /// <inheritdoc/>
    public void Complete()
    {
        if (!_stopped)
        {
            Unpack();
        }

        // The length of what was packed ends the file (RFC 1952, 2.3.1). The stream ends silently where a file is cut.
        if (_damaged || (!_stopped && (_packed < FewestBytes || _lastFour != (uint)_unpacked)))
        {
            _damaged = true;
            _faults.Report(0, 0, FaultCodes.ArchiveInvalid, FaultText.GzipInvalid);
        }

        Dispose();
        if (_unpacked > 0 || !_damaged)
        {
            _content.Complete();
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _stream.Dispose();
        _feed.Dispose();
    }

    // Given less than it could use, the stream gives what it has and goes on when there is more.
    private void Unpack()
    {
        for (int length; (length = Read()) > 0;)
        {
            _unpacked += length;
            if (_unpacked > FreeBytes && _unpacked / MostExpansion > _packed)
            {
                _stopped = true;
                _faults.Report(0, 0, FaultCodes.ArchiveTooLong, FaultText.GzipTooLong);
                return;
            }

            _content.Write(_piece.AsSpan(0, length));
        }

        _feed.Clear();
    }

    private int Read()
    {
        try
        {
            return _stream.Read(_piece);
        }
        catch (Exception exception) when (exception is InvalidDataException or IOException)
        {
            (_stopped, _damaged) = (true, true);
            return 0;
        }
    }

    /// <summary>Gives the stream what has come so far.</summary>
    private sealed class Feed : Stream
    {
        private readonly byte[] _bytes = new byte[PieceBytes];
        private int _length;
        private int _taken;

        public bool IsFull => _length == PieceBytes;

        /// <summary>Takes what there is room for.</summary>
        public int Give(ReadOnlySpan<byte> piece)
        {
            int length = Math.Min(piece.Length, PieceBytes - _length);
            piece[..length].CopyTo(_bytes.AsSpan(_length));
            _length += length;
            return length;
        }

        /// <summary>Makes room. The stream leaves only what follows its end.</summary>
        public void Clear() => (_length, _taken) = (0, 0);

        public override int Read(Span<byte> buffer)
        {
            int length = Math.Min(buffer.Length, _length - _taken);
            _bytes.AsSpan(_taken, length).CopyTo(buffer);
            _taken += length;
            return length;
        }

        public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
