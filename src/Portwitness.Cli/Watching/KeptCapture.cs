using Portwitness.Captures;
using Portwitness.Captures.Formats;
using Portwitness.Captures.JsonLines;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Watching;

/// <summary>A capture of what was attached to a port, in the order in which it came: lists, attaches and detaches.</summary>
internal sealed class KeptCapture : IDisposable
{
    private readonly FileStream _file;
    private readonly CaptureWriter _writer;

    private KeptCapture(FileStream file, DateTimeOffset started)
    {
        _file = file;
        _writer = new CaptureWriter(file);
        _writer.OnHeader(new CaptureHeader { Format = "capture", ConvertedFrom = "sysfs", Started = started });
        _writer.Flush();
    }

    /// <summary>Begins one in a new file.</summary>
    /// <exception cref="CommandFailure">The file is there already, or cannot be written.</exception>
    public static KeptCapture Create(string path, DateTimeOffset started)
    {
        try
        {
            return new KeptCapture(new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.Read), started);
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure(File.Exists(path)
                ? $"--keep {path}: is there already, and is left as it is; name a new file."
                : $"--keep {path}: cannot be written: {exception.Message}");
        }
    }

    /// <summary>Something was attached that shows these lists.</summary>
    public void Attached(long timeUs, ReadOnlySpan<byte> shown)
    {
        _writer.OnEvent(new EventRecord(timeUs, 0, CaptureEvents.Attach, null, null));
        Shown(timeUs, shown);
    }

    /// <summary>What is attached shows other lists.</summary>
    public void Shown(long timeUs, ReadOnlySpan<byte> shown)
    {
        CaptureReader reader = new(new Lists(_writer, timeUs));
        reader.Write(shown);
        reader.Complete();
        _writer.Flush();
    }

    /// <summary>It was taken away.</summary>
    public void Detached(long timeUs)
    {
        _writer.OnEvent(new EventRecord(timeUs, 0, CaptureEvents.Detach, null, null));
        _writer.Flush();
    }

    public void Dispose()
    {
        _writer.Dispose();
        _file.Dispose();
    }

    // The lists of one attach, at its time.
    private sealed class Lists(CaptureWriter writer, long timeUs) : ICaptureSink
    {
        public void OnHeader(CaptureHeader header)
        {
        }

        public void OnMessage(in MessageRecord message) => writer.OnMessage(message with { TimeUs = timeUs });

        public void OnSignal(SignalRecord signal)
        {
        }

        public void OnMeasurement(MeasurementRecord measurement)
        {
        }

        public void OnEvent(EventRecord happened)
        {
        }

        public void OnFault(CaptureFault fault)
        {
        }
    }
}
