using Portwitness.Captures.Archives;
using Portwitness.Captures.Input;
using Portwitness.Captures.JsonLines;
using Portwitness.Captures.KernelLog;
using Portwitness.Captures.Sysfs;
using Portwitness.Captures.Words;

namespace Portwitness.Captures;

/// <summary>
/// Reads a capture of any known format, which it finds from the content. Bytes are pushed in as they come, in pieces
/// of any size; memory does not grow with the input, and how it is cut into pieces makes no difference.
/// </summary>
public sealed class CaptureReader
{
    private const int ProbeSize = 4096;

    private readonly ICaptureSink _sink;
    private readonly FaultLog _faults;
    private readonly LineSplitter _lines;
    private readonly byte[] _probe = new byte[ProbeSize];
    private int _probed;
    private bool _atStart = true;
    private bool _refused;
    private bool _completed;
    private ILineReader? _reader;
    private TarInput? _archive;
    private GzipInput? _packed;
    private bool _unpacking;

    /// <summary>A reader that hands what it finds to a sink.</summary>
    public CaptureReader(ICaptureSink sink)
    {
        ArgumentNullException.ThrowIfNull(sink);
        _sink = sink;
        _faults = new FaultLog(sink);
        _lines = new LineSplitter(_faults);
    }

    /// <summary>The format found, null as long as, or when, none was: "capture", "kernel-log", "sysfs" or "words".</summary>
    public string? Format { get; private set; }

    /// <summary>Takes the next piece of the input.</summary>
    /// <exception cref="InvalidOperationException">The input was said to have ended.</exception>
    public void Write(ReadOnlySpan<byte> piece)
    {
        if (_completed)
        {
            throw new InvalidOperationException("The input has ended; read the next one with a new reader.");
        }

        Take(piece);
    }

    /// <summary>Says that the input has ended. An input in which no format was found has its fault reported here.</summary>
    /// <exception cref="InvalidOperationException">That was said before.</exception>
    public void Complete()
    {
        if (_completed)
        {
            throw new InvalidOperationException("The input has already ended.");
        }

        _completed = true;
        Finish();
        _faults.Complete();
    }

    private bool IsDecided => _reader is not null || _archive is not null || _packed is not null || _refused;

    private void Take(ReadOnlySpan<byte> piece)
    {
        while (!piece.IsEmpty && !IsDecided)
        {
            piece = piece[Probe(piece)..];
        }

        if (_packed is not null)
        {
            _packed.Write(piece);
        }
        else if (_archive is not null)
        {
            _archive.Write(piece);
        }
        else if (!_refused)
        {
            _lines.Write(piece, _reader);
        }
    }

    private void Finish()
    {
        if (_probed > 0 && !IsDecided)
        {
            Decide();
        }

        if (_packed is { } packed)
        {
            // What is inside is read as if it had come by itself.
            (_packed, _unpacking, _probed, _atStart) = (null, true, 0, true);
            bool whole = packed.Unpack(Take);
            _refused |= !whole && _probed == 0 && !IsDecided;
            Finish();
        }
        else if (_archive is not null)
        {
            _archive.Complete();
        }
        else if (_reader is not null)
        {
            _lines.Complete(_reader);
            _reader.Complete();
        }
        else if (!_refused)
        {
            _faults.Report(0, 0, FaultCodes.Empty, FaultText.Empty);
        }
    }

    /// <summary>Uses up some of a piece while the format is not known, and says how much.</summary>
    private int Probe(ReadOnlySpan<byte> piece)
    {
        if (_probed == 0 && piece.IndexOfAnyExcept(" \t\r\n"u8) is var blanks && blanks != 0)
        {
            // Blanks in front say nothing; the splitter only counts their lines.
            blanks = blanks < 0 ? piece.Length : blanks;
            _lines.Write(piece[..blanks], reader: null);
            _atStart = false;
            return blanks;
        }

        int wanted = _atStart ? 3 : ProbeSize;
        int taken = Math.Min(piece.Length, wanted - _probed);
        piece[..taken].CopyTo(_probe.AsSpan(_probed));
        _probed += taken;
        if (_atStart && _probed == wanted)
        {
            _atStart = false;
            _probed = _probe.AsSpan(0, 3).SequenceEqual("\uFEFF"u8) ? 0 : _probed;
        }

        if (_probed == ProbeSize)
        {
            Decide();
        }

        return taken;
    }

    private void Decide()
    {
        ReadOnlySpan<byte> start = _probe.AsSpan(0, _probed);
        DetectedFormat format = FormatDetector.Detect(start);
        if (format == DetectedFormat.Gzip && !_unpacking)
        {
            _packed = new GzipInput(_faults);
            _packed.Write(start);
            return;
        }

        if (format == DetectedFormat.Tar)
        {
            Format = "sysfs";
            _archive = new TarInput(new SysfsReader(_sink, _faults), _faults);
            _archive.Write(start);
            return;
        }

        (Format, _reader) = format switch
        {
            DetectedFormat.Capture => ("capture", new JsonLinesReader(_sink, _faults)),
            DetectedFormat.KernelLog => ("kernel-log", new KernelLogReader(_sink, _faults)),
            DetectedFormat.Sysfs => ("sysfs", new SysfsReader(_sink, _faults)),
            DetectedFormat.Words => ("words", new WordsReader(_sink, _faults)),
            _ => ((string?)null, (ILineReader?)null),
        };
        if (_reader is not null)
        {
            _lines.Write(start, _reader);
            return;
        }

        _refused = true;
        (string code, string detail) = format == DetectedFormat.Utf16
            ? (FaultCodes.NotUtf8, FaultText.Utf16)
            : (FaultCodes.FormatUnknown, FaultText.FormatUnknown(start));
        _faults.Report(_lines.Line, _lines.Column, code, detail);
    }
}
