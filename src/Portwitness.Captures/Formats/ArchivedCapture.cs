using Portwitness.Captures.Input;
using Portwitness.Captures.Measurements;
using Portwitness.Captures.Waveforms;

namespace Portwitness.Captures.Formats;

/// <summary>
/// Finds and reads the one capture among the files of an archive or a folder: the only file that has records, the parts of one recording in
/// the order of their numbers, a file for each of the two CC lines, or samples as they were stated.
/// </summary>
/// <param name="sink">Receives what is found.</param>
/// <param name="faults">Told what was read and what was left out.</param>
/// <param name="options">What is known besides the bytes.</param>
/// <param name="kind">What holds the files.</param>
/// <param name="maxBytes">Most bytes that are read of them.</param>
/// <param name="depth">How many archives are around the files.</param>
internal sealed class ArchivedCapture(ICaptureSink sink, FaultLog faults, CaptureReadOptions options, ArchiveKind kind, long maxBytes, int depth)
{
    private const int MaxFiles = 1_000;
    private const int MaxNamed = 20;
    private const int PieceBytes = 1 << 16;

    /// <summary>The format of what was read; null when nothing was.</summary>
    public string? Format { get; private set; }

    /// <summary>Reads it.</summary>
    public void Read(IEnumerable<ArchivedFile> all)
    {
        ArchivedFile[] files = [.. all.Where(static file => file.Name is [.., not '/'] && !file.IsAside).Take(MaxFiles)];
        ArchivedFile[] found = options.Waveform.Samples is not null ? Samples(files) : Captures(files);
        ArchivedFile[] chosen = options.Waveform.Samples is not null ? found
            : Parts(files, found) is { Length: > 0 } parts ? parts
            : found.Length == 1 ? found : [];
        bool areLines = chosen.Length == 0 && found.Length == 2 && found.All(static file => VcdSignals.SoundsLikeCc(file.Stem));
        if (chosen.Length == 0 && !areLines)
        {
            string names = Names(found.Length == 0 ? files : found);
            faults.Report(0, 0, FaultCodes.ArchiveUnsettled, found.Length == 0 ? FaultText.ArchiveWithoutCapture(kind, names) : FaultText.ArchiveOfSeveral(kind, names));
            return;
        }

        chosen = areLines ? found : chosen;
        if (files.Length > 1)
        {
            faults.Report(0, 0, FaultCodes.SignalChosen, FaultText.ArchiveChosen(kind, Names(chosen), Names([.. files.Except(chosen)]), areLines));
        }

        if (areLines)
        {
            ReadLines(chosen);
            return;
        }

        DetectingInput content = new(sink, faults, options, depth);
        Copy(chosen, content);
        content.Complete();
        Format = content.Format;
    }

    private static string Names(ArchivedFile[] files) =>
        string.Join(", ", files.Take(MaxNamed).Select(static file => FaultText.Printable(file.Name))) + (files.Length > MaxNamed ? " ..." : "");

    // Who exports samples writes them beside a description, in one file or in parts "name-1", "name-2".
    private static ArchivedFile[] Samples(ArchivedFile[] files) =>
        InOrder(files.GroupBy(static file => file.Series ?? file.Name).MaxBy(static group => group.Sum(static file => file.Length)) ?? Enumerable.Empty<ArchivedFile>());

    private static ArchivedFile[] InOrder(IEnumerable<ArchivedFile> files) =>
        [.. files.OrderBy(static file => file.Name.Length).ThenBy(static file => file.Name, StringComparer.Ordinal)];

    // Files are the parts of one recording when they are numbered and can be read as one without a fault: times go on from one to the next.
    private ArchivedFile[] Parts(ArchivedFile[] files, ArchivedFile[] found)
    {
        string? series = found.FirstOrDefault()?.Series;
        ArchivedFile[] parts = InOrder(files.Where(file => series is not null && file.Series == series));
        if (parts.Length < 2 || found.Any(file => file.Series != series))
        {
            return [];
        }

        RecordCounter counter = new();
        DetectingInput input = new(counter, new FaultLog(counter), options, depth);
        Copy(parts, input);
        input.Complete();
        return counter is { Any: true, Faulty: false } ? parts : [];
    }

    private void Copy(ArchivedFile[] files, DetectingInput content)
    {
        long left = maxBytes;
        byte[] piece = new byte[PieceBytes];
        byte[] heading = [];
        for (int at = 0; at < files.Length; at++)
        {
            using Stream stream = files[at].Open();
            int length = stream.ReadAtLeast(piece, piece.Length, throwOnEndOfStream: false);
            ReadOnlySpan<byte> start = piece.AsSpan(0, length);
            if (options.Waveform.Samples is null)
            {
                // A part of a table has the heading of the first once more.
                int end = start.IndexOf((byte)'\n') + 1;
                heading = at == 0 ? start[..end].ToArray() : heading;
                start = at > 0 && heading.Length > 0 && start.StartsWith(heading) && !char.IsAsciiDigit((char)heading[0]) ? start[heading.Length..] : start;
            }

            while (length > 0)
            {
                if ((left -= length) < 0)
                {
                    faults.Report(0, 0, FaultCodes.ArchiveTooLong, FaultText.ArchiveTooLong(kind));
                    return;
                }

                content.Write(start);
                length = stream.Read(piece);
                start = piece.AsSpan(0, length);
            }
        }
    }

    // The records of both lines in the order of their times; they take turns when the plug is turned.
    private void ReadLines(ArchivedFile[] files)
    {
        SignalChoice choice = new(sink, faults, areOfOnePort: true);
        List<RecordHold> holds = [];
        foreach (ArchivedFile file in files)
        {
            ICaptureSink line = choice.Add(file.Name);
            RecordHold hold = new(line);
            HeldLine held = new(line, hold, faults);
            DetectingInput content = new(held, new FaultLog(held), options, depth);
            Copy([file], content);
            content.Complete();
            Format ??= content.Format;
            holds.Add(hold);
        }

        while (holds.Where(static hold => !hold.IsEmpty).MinBy(static hold => hold.NextTimeUs) is { } next)
        {
            next.Give();
        }

        if (!choice.IsSettled)
        {
            faults.Report(0, 0, FaultCodes.WaveformWithoutFrames, FaultText.WaveformWithoutFrames(0));
        }
    }

    // A recording of voltages may have its first frame late, or be one of VBUS: what has frames, or the name of a CC line, goes before it.
    private ArchivedFile[] Captures(ArchivedFile[] files)
    {
        (ArchivedFile File, bool? Holds)[] all = [.. files.Select(file => (file, HoldsRecords(file)))];
        ArchivedFile[] sure = [.. all.Where(static one => one.Holds == true).Select(static one => one.File)];
        return sure.Length > 0 ? sure : [.. all.Where(static one => one.Holds is null).Select(static one => one.File)];
    }

    // A description in JSON looks like a capture, and has no record. Null: a recording whose beginning has none.
    private bool? HoldsRecords(ArchivedFile file)
    {
        RecordCounter counter = new();
        DetectingInput input = new(counter, new FaultLog(counter), options, depth);
        using Stream stream = file.Open();
        byte[] start = new byte[PieceBytes];
        input.Write(start.AsSpan(0, stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false)));
        input.Complete();
        return input.Format is SampleInputs.Format or VcdValues.Format && !counter.Any && !VcdSignals.SoundsLikeCc(file.Stem) ? null
            : counter.Any || input.Format is SampleInputs.Format or VcdValues.Format;
    }

    private sealed class RecordCounter : ICaptureSink
    {
        public bool Any { get; private set; }

        public bool Faulty { get; private set; }

        public void OnHeader(CaptureHeader header)
        {
        }

        public void OnMessage(in MessageRecord message) => Any = true;

        public void OnSignal(SignalRecord signal) => Any = true;

        public void OnMeasurement(MeasurementRecord measurement) => Any = true;

        public void OnEvent(EventRecord happened)
        {
        }

        public void OnFault(CaptureFault fault) => Faulty |= !FaultCodes.IsNote(fault.Code);
    }

    private sealed class HeldLine(ICaptureSink line, RecordHold hold, FaultLog faults) : ICaptureSink
    {
        public void OnHeader(CaptureHeader header) => line.OnHeader(header);

        public void OnMessage(in MessageRecord message) => hold.Add(message);

        public void OnSignal(SignalRecord signal) => hold.Add(signal);

        public void OnBrokenFrame(BrokenFrameRecord frame) => hold.Add(frame);

        public void OnMeasurement(MeasurementRecord measurement)
        {
        }

        public void OnEvent(EventRecord happened)
        {
        }

        // One of the two lines has no frame until the plug is turned.
        public void OnFault(CaptureFault fault)
        {
            if (fault.Code != FaultCodes.WaveformWithoutFrames)
            {
                faults.Report(fault.Line, fault.Column, fault.Code, fault.Detail);
            }
        }
    }
}
