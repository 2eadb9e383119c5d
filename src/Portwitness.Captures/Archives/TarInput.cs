using System.Buffers;
using System.Buffers.Text;
using System.Text;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.Archives;

/// <summary>
/// Walks through a tar archive as its bytes come, and holds its files up to a limit. Formats: POSIX 1003.1 ustar and pax, and GNU's long names.
/// </summary>
/// <remarks>
/// .NET's own reader makes room for whatever length a header claims before it reads a byte; here nothing grows beyond
/// <see cref="MaxBytes"/>. Links, devices and sparse files hold nothing that is wanted and are passed over.
/// </remarks>
internal sealed class TarInput(FaultLog faults) : IInputReader
{
    /// <summary>Most bytes of files that are held.</summary>
    public const int MaxBytes = 64 << 20;

    /// <summary>Most files that are held.</summary>
    public const int MaxFiles = 20_000;

    private const int MaxNameBytes = 16 << 10;
    private const int Block = 512;

    private readonly byte[] _header = new byte[Block];
    private readonly ArrayBufferWriter<byte> _content = new();
    private readonly List<TarFile> _files = [];
    private int _left = MaxBytes;
    private int _headed;
    private long _data;
    private long _size;
    private long _padding;
    private long _entry;
    private byte[] _name = [];
    private byte[]? _longName;
    private bool _ended;

    /// <summary>The files that ended, in order.</summary>
    public IReadOnlyList<TarFile> Files => _files;

    /// <summary>Whether it is a folder that was packed to be read.</summary>
    public bool IsFolder { get; private set; }

    /// <summary>Whether an input begins as an archive does.</summary>
    public static bool IsLikely(ReadOnlySpan<byte> start) => start.Length >= Block && start[257..].StartsWith("ustar"u8);

    /// <summary>Takes the next piece.</summary>
    public void Write(ReadOnlySpan<byte> piece)
    {
        while (!piece.IsEmpty && !_ended)
        {
            int taken = _headed < Block ? Fill(piece) : _data > 0 ? Keep(piece) : Pad(piece);
            piece = piece[taken..];
            if (_headed == Block && _data == 0 && _padding == 0)
            {
                _headed = 0;
            }
        }
    }

    /// <summary>Says that there is no more.</summary>
    public void Complete()
    {
        // Some archives lack the padding of their last file, or the blocks of zeroes behind it.
        if (!_ended && (_data > 0 || _headed is > 0 and < Block))
        {
            faults.Report(_entry, 0, FaultCodes.ArchiveInvalid, FaultText.ArchiveCut);
        }
    }

    private int Fill(ReadOnlySpan<byte> piece)
    {
        int taken = Math.Min(piece.Length, Block - _headed);
        piece[..taken].CopyTo(_header.AsSpan(_headed));
        _headed += taken;
        if (_headed == Block)
        {
            Begin();
        }

        return taken;
    }

    private void Begin()
    {
        _ended = !_header.AsSpan().ContainsAnyExcept((byte)0);
        if (_ended)
        {
            return;
        }

        _entry++;
        if (!TryReadOctal(_header.AsSpan(124, 12), out long size) || !TryReadOctal(_header.AsSpan(148, 8), out long sum)
            || sum != Checksum() || !IsLikely(_header))
        {
            _ended = true;
            faults.Report(_entry, 0, FaultCodes.ArchiveInvalid, FaultText.ArchiveEntryInvalid);
            return;
        }

        // Links, devices and folders have no data, whatever their size says.
        _data = _header[156] is >= (byte)'1' and <= (byte)'6' ? 0 : size;
        _padding = (Block - (_data % Block)) % Block;
        _content.ResetWrittenCount();
        _size = _data;
        if (_header[156] is not ((byte)'L' or (byte)'x' or (byte)'g' or (byte)'K'))
        {
            _name = _longName ?? Name();
            _longName = null;
        }
    }

    private int Keep(ReadOnlySpan<byte> piece)
    {
        int taken = (int)Math.Min(piece.Length, _data);
        int room = Math.Max((IsFile ? _left : MaxNameBytes) - _content.WrittenCount, 0);
        if (IsFile || _header[156] is (byte)'L' or (byte)'x' or (byte)'g')
        {
            _content.Write(piece[..Math.Min(taken, room)]);
        }

        _data -= taken;
        if (_data == 0)
        {
            End();
        }

        return taken;
    }

    private int Pad(ReadOnlySpan<byte> piece)
    {
        int taken = (int)Math.Min(piece.Length, _padding);
        _padding -= taken;
        return taken;
    }

    private bool IsFile => _header[156] is 0 or (byte)'0' or (byte)'7';

    private void End()
    {
        ReadOnlySpan<byte> content = _content.WrittenSpan;
        if (_header[156] == 'L')
        {
            _longName = content.TrimEnd((byte)0).ToArray();
        }
        else if (_header[156] == 'x')
        {
            _longName = PaxPath(content) ?? _longName;
        }
        else if (_header[156] == 'g')
        {
            IsFolder |= content.IndexOf(Encoding.ASCII.GetBytes($"comment={FolderArchive.Comment}\n")) >= 0;
        }
        else if (IsFile && _files.Count < MaxFiles)
        {
            _left -= content.Length;
            _files.Add(new TarFile(_entry, _name, content.ToArray(), content.Length < _size));
        }
    }

    // GNU uses the room of the prefix for other things.
    private byte[] Name()
    {
        ReadOnlySpan<byte> name = UpToNul(_header.AsSpan(0, 100));
        ReadOnlySpan<byte> prefix = _header.AsSpan(257).StartsWith("ustar\0"u8) ? UpToNul(_header.AsSpan(345, 155)) : [];
        return prefix.IsEmpty ? name.ToArray() : [.. prefix, (byte)'/', .. name];
    }

    // Records such as "30 mtime=1700000000.123456789\n", the number being the record's length.
    private static byte[]? PaxPath(ReadOnlySpan<byte> records)
    {
        while (Utf8Parser.TryParse(records, out int length, out int digits) && length > digits + 1 && length <= records.Length)
        {
            ReadOnlySpan<byte> record = records[(digits + 1)..length];
            if (record.StartsWith("path="u8))
            {
                return record[5..].TrimEnd((byte)'\n').ToArray();
            }

            records = records[length..];
        }

        return null;
    }

    private long Checksum()
    {
        long sum = 0;
        for (int index = 0; index < Block; index++)
        {
            sum += index is >= 148 and < 156 ? ' ' : _header[index];
        }

        return sum;
    }

    // Up to 12 digits: no overflow.
    private static bool TryReadOctal(ReadOnlySpan<byte> field, out long value)
    {
        value = 0;
        field = field.Trim(" \0"u8);
        foreach (byte digit in field)
        {
            value = (value * 8) + (digit - '0');
        }

        return !field.ContainsAnyExceptInRange((byte)'0', (byte)'7');
    }

    private static ReadOnlySpan<byte> UpToNul(ReadOnlySpan<byte> field) =>
        field.IndexOf((byte)0) is >= 0 and int end ? field[..end] : field;
}
