using System.IO.Compression;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.Archives;

/// <summary>
/// Unpacks a compressed input as it comes and hands the content on, up to a limit of what little may become much. A file may have
/// several members (RFC 1952, 2.2), whose lengths and CRCs the stream checks; zero bytes may fill it up behind the last one.
/// </summary>
/// <remarks>
/// The stream ends silently where a file is cut and at what follows its last member, and does not tell the two apart. What tells them is
/// whether it asks for more: in the middle of a member it does, behind the last one it leaves what it is given. The last bytes
/// are given one by one, so that what lies behind the end is known.
/// </remarks>
internal sealed class GzipInput : IInputReader, IDisposable
{
    /// <summary>What any input may unpack to, in bytes.</summary>
    private const long FreeBytes = 64 << 20;

    /// <summary>Beyond that, how many times its packed length. Captures reach a tenth of it; made to harm, a file reaches 1000.</summary>
    private const int MaxExpansion = 250;

    private const int PieceBytes = 16 << 10;
    private const int LastBytes = 512;

    private readonly IInputReader _content;
    private readonly FaultLog _faults;
    private readonly Feed _feed = new();
    private readonly GZipStream _stream;
    private readonly byte[] _piece = new byte[PieceBytes];
    private long _packed;
    private long _unpacked;
    private bool _ended;
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
        // The stream is fed always in the same pieces: how far it comes in damaged data depends on them.
        while (!piece.IsEmpty && !_stopped)
        {
            int taken = _feed.Give(piece);
            piece = piece[taken..];
            _packed += taken;
            if (_feed.IsFull)
            {
                Unpack(PieceBytes);
            }
        }
    }

    /// <inheritdoc/>
    public void Complete()
    {
        if (!_stopped && _feed.Held > LastBytes)
        {
            Unpack(_feed.Held - LastBytes);
        }

        while (!_stopped && _feed.Held > 0)
        {
            Unpack(1);
        }

        if (_damaged || (!_stopped && !_ended && !IsWhole()))
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
    private void Unpack(int length)
    {
        if (_ended)
        {
            Leave(length, 0);
            return;
        }

        _feed.Open(length);
        for (int read; (read = Read()) > 0;)
        {
            _unpacked += read;
            if (_unpacked > FreeBytes && _unpacked / MaxExpansion > _packed)
            {
                _stopped = true;
                _faults.Report(0, 0, FaultCodes.ArchiveTooLong, FaultText.GzipTooLong);
                return;
            }

            _content.Write(_piece.AsSpan(0, read));
        }

        if (!_stopped)
        {
            // Of a single byte it is known that it lies behind the end; of several, only of those that were not taken.
            _ended = !_feed.IsWanted;
            Leave(length, _ended && length == 1 ? 0 : _feed.Taken);
        }
    }

    // Nothing but zero bytes may lie behind the end.
    private void Leave(int length, int from)
    {
        if (!_feed.Drop(length, from))
        {
            (_stopped, _damaged) = (true, true);
        }
    }

    // Behind the end of a member a zero byte is left alone. In the middle of one it is taken, and more is asked for.
    private bool IsWhole()
    {
        _feed.Give([0]);
        _feed.Open(1);
        return Read() == 0 && !_damaged && !_feed.IsWanted;
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

    /// <summary>Gives the stream as much as it is to have of what has come so far.</summary>
    private sealed class Feed : Stream
    {
        private readonly byte[] _bytes = new byte[PieceBytes + LastBytes];
        private int _open;

        /// <summary>Bytes that are held.</summary>
        public int Held { get; private set; }

        public bool IsFull => Held == _bytes.Length;

        /// <summary>How many of the first bytes the stream has taken.</summary>
        public int Taken { get; private set; }

        /// <summary>Whether the stream has asked for more than it may have.</summary>
        public bool IsWanted { get; private set; }

        /// <summary>Takes what there is room for.</summary>
        public int Give(ReadOnlySpan<byte> piece)
        {
            int length = Math.Min(piece.Length, _bytes.Length - Held);
            piece[..length].CopyTo(_bytes.AsSpan(Held));
            Held += length;
            return length;
        }

        /// <summary>Lets the stream have the first bytes.</summary>
        public void Open(int length) => (_open, Taken, IsWanted) = (length, 0, false);

        /// <summary>Forgets the first bytes; false when one of them, from a place on, is not zero.</summary>
        public bool Drop(int length, int from)
        {
            bool isZero = !_bytes.AsSpan(from, length - from).ContainsAnyExcept((byte)0);
            _bytes.AsSpan(length, Held - length).CopyTo(_bytes);
            Held -= length;
            return isZero;
        }

        public override int Read(Span<byte> buffer)
        {
            int length = Math.Min(buffer.Length, _open - Taken);
            _bytes.AsSpan(Taken, length).CopyTo(buffer);
            Taken += length;
            IsWanted |= length == 0 && buffer.Length > 0;
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
