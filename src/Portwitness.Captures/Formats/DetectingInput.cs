using Portwitness.Captures.Archives;
using Portwitness.Captures.Input;
using Portwitness.Captures.JsonLines;
using Portwitness.Captures.KernelLog;
using Portwitness.Captures.Offers;
using Portwitness.Captures.Pcapng;
using Portwitness.Captures.Quoted;
using Portwitness.Captures.Sysfs;
using Portwitness.Captures.Tables;
using Portwitness.Captures.Waveforms;
using Portwitness.Captures.Words;

namespace Portwitness.Captures.Formats;

/// <summary>Finds the format from the first bytes and hands everything to its reader.</summary>
/// <param name="sink">Receives what is found.</param>
/// <param name="faults">Takes the faults.</param>
/// <param name="options">What is known besides the bytes.</param>
/// <param name="depth">How many times the input was packed around this: a compressed archive of files is as deep as it goes.</param>
internal sealed class DetectingInput(ICaptureSink sink, FaultLog faults, CaptureReadOptions options, int depth = 0) : IInputReader
{
    private const int ProbeSize = 4096;

    private readonly LineSplitter _lines = new(faults);
    private readonly byte[] _probe = new byte[ProbeSize];
    private int _probed;
    private bool _atStart = true;
    private bool _refused;
    private string? _format;
    private IInputReader? _reader;
    private DetectingInput? _content;
    private ZipInput? _zip;
    private TarArchive? _tar;

    /// <summary>The format; null as long as, or when, none was found.</summary>
    public string? Format => _zip is not null ? _zip.Format : _tar is not null ? _tar.Format : _content is null ? _format : _content.Format;

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> piece)
    {
        if (_atStart && options.Waveform.Samples is not null && !piece.IsEmpty)
        {
            // Samples may look like anything.
            _atStart = false;
            (_format, _reader) = options.Waveform.SamplesPacked && depth == 0
                ? (null, Unpack())
                : options.Waveform.SamplesIn is SampleArchive.Zip && depth == 0 ? (null, Unzip())
                : options.Waveform.SamplesIn is SampleArchive.Tar && depth == (options.Waveform.SamplesPacked ? 1 : 0) ? (null, Untar())
                : (SampleInputs.Format, SampleInputs.Open(sink, faults, options.Waveform, _lines));
        }

        while (!piece.IsEmpty && _reader is null && !_refused)
        {
            piece = piece[Probe(piece)..];
        }

        _reader?.Write(piece);
    }

    /// <inheritdoc/>
    public void Complete()
    {
        if (_atStart)
        {
            Begin();
        }

        if (_probed > 0 && _reader is null && !_refused)
        {
            Decide();
        }

        if (_reader is not null)
        {
            _reader.Complete();
        }
        else if (!_refused)
        {
            faults.Report(0, 0, FaultCodes.Empty, FaultText.Empty);
        }
    }

    /// <summary>Uses up some of a piece while the format is not known, and says how much.</summary>
    private int Probe(ReadOnlySpan<byte> piece)
    {
        if (!_atStart && _probed == 0 && piece.IndexOfAnyExcept(" \t\r\n"u8) is var blanks && blanks != 0)
        {
            // Blanks in front say nothing; the splitter only counts their lines.
            blanks = blanks < 0 ? piece.Length : blanks;
            _lines.Write(piece[..blanks], reader: null);
            return blanks;
        }

        int wanted = _atStart ? PcapngReader.BytesToTell : ProbeSize;
        int taken = Math.Min(piece.Length, wanted - _probed);
        piece[..taken].CopyTo(_probe.AsSpan(_probed));
        _probed += taken;
        if (_atStart && _probed == wanted)
        {
            Begin();
        }
        else if (!_atStart && _probed > 0 && (_probed == wanted || (options.Quoted is null && FormatDetector.IsCaptureFromItsFirstLine(_probe.AsSpan(0, _probed)))))
        {
            Decide();
        }

        return taken;
    }

    // A pcapng file begins with what would be ends of lines elsewhere, so it is looked for before blanks are passed over.
    private void Begin()
    {
        _atStart = false;
        ReadOnlySpan<byte> start = _probe.AsSpan(0, _probed).ToArray();
        _probed = 0;
        if (PcapngReader.IsLikely(start))
        {
            _format = "pcapng";
            _reader = new PcapngReader(sink, faults, options.Port);
            _reader.Write(start);
            return;
        }

        Write(start.StartsWith("\uFEFF"u8) ? start[3..] : start);
    }

    private void Decide()
    {
        ReadOnlySpan<byte> start = _probe.AsSpan(0, _probed);
        DetectedFormat format = FormatDetector.Detect(start, options.Waveform);
        if (options.Table is not null && format is DetectedFormat.Unknown or DetectedFormat.KernelLog or DetectedFormat.Sysfs or DetectedFormat.Words
            or DetectedFormat.VoltageTable)
        {
            // Whoever names columns has a table.
            format = DetectedFormat.Table;
        }

        if (options.Quoted is not null && format is not (DetectedFormat.Gzip or DetectedFormat.Zip or DetectedFormat.Tar or DetectedFormat.Utf16))
        {
            format = DetectedFormat.Quoted;
        }

        (_format, _reader) = format switch
        {
            DetectedFormat.Gzip when depth == 0 => (null, Unpack()),
            DetectedFormat.Zip when depth == 0 => (null, Unzip()),
            DetectedFormat.Tar when depth <= 1 => (null, Untar()),
            DetectedFormat.Capture => Lines("capture", new JsonLinesReader(sink, faults, options.Port)),
            DetectedFormat.KernelLog => Lines("kernel-log", new KernelLogReader(sink, faults)),
            DetectedFormat.Sysfs => Lines("sysfs", new SysfsReader(sink, faults)),
            DetectedFormat.Table => Lines("table", new TableReader(sink, faults, options.Table)),
            DetectedFormat.Words => Lines("words", new WordsReader(sink, faults)),
            DetectedFormat.Quoted => Lines(QuotedReader.Format, new QuotedReader(sink, faults, options.Quoted)),
            DetectedFormat.Offers => Lines(OffersReader.Format, new OffersReader(sink, faults)),
            DetectedFormat.Vcd => (VcdValues.Format, new VcdReader(sink, faults, options.Waveform, _lines.Line)),
            DetectedFormat.VoltageTable => Lines(SampleInputs.Format, new VoltageTable(sink, faults, options.Waveform)),
            _ => ((string?)null, (IInputReader?)null),
        };
        if (_reader is not null)
        {
            _reader.Write(start);
            return;
        }

        _refused = true;
        (string code, string detail) = format == DetectedFormat.Utf16
            ? (FaultCodes.NotUtf8, FaultText.Utf16)
            : (FaultCodes.FormatUnknown, FaultText.FormatUnknown(start));
        faults.Report(_lines.Line, _lines.Column, code, detail);
    }

    private (string Format, IInputReader Reader) Lines(string format, ILineReader reader) => (format, new LineInput(_lines, reader));

    private ZipInput Unzip() => _zip = new ZipInput(sink, faults, options, depth);

    private TarArchive Untar() => _tar = new TarArchive(sink, faults, options, depth);

    private GzipInput Unpack()
    {
        _content = new DetectingInput(sink, faults, options, depth + 1);
        return new GzipInput(_content, faults);
    }
}
