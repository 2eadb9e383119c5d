using System.Globalization;

namespace Portwitness.Cli.Shell;

/// <summary>
/// One line on standard error that tells how far a long reading is: bytes, rate, and the time left. It appears only where
/// a person watches, only when the reading takes long, and is gone when it has ended.
/// </summary>
internal sealed class Progress(TextWriter writer, bool isWatched, TimeProvider time)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(250);

    /// <summary>For work that is told of in another way.</summary>
    public static Progress None => new(TextWriter.Null, isWatched: false, TimeProvider.System);

    private string _name = "";
    private long? _total;
    private long _done;
    private long _began;
    private long _shown;
    private int _width;

    /// <summary>Begins an input.</summary>
    /// <param name="name">As the line names it.</param>
    /// <param name="total">Its length in bytes; null when it is not known.</param>
    public void Begin(string name, long? total)
    {
        End();
        (_name, _total, _done) = (name, total > 0 ? total : null, 0);
        _began = _shown = time.GetTimestamp();
    }

    /// <summary>Counts bytes.</summary>
    public void Add(int bytes)
    {
        _done += bytes;
        if (!isWatched || time.GetElapsedTime(_shown) < Pause || time.GetElapsedTime(_began) < Patience)
        {
            return;
        }

        _shown = time.GetTimestamp();
        string line = Line(time.GetElapsedTime(_began));
        writer.Write("\r" + line.PadRight(_width));
        writer.Flush();
        _width = line.Length;
    }

    /// <summary>The input has ended: takes the line away.</summary>
    public void End()
    {
        if (_width > 0)
        {
            writer.Write("\r" + new string(' ', _width) + "\r");
            writer.Flush();
            _width = 0;
        }
    }

    private string Line(TimeSpan elapsed)
    {
        double rate = _done / elapsed.TotalSeconds;
        string name = Reports.Text.VisibleText.Of(_name.Length > 40 ? "..." + _name[^37..] : _name);
        string done = _total is { } total ? $"{Size(_done)} of {Size(total)}" : Size(_done);
        string left = _total is { } all && rate > 0
            ? string.Create(CultureInfo.InvariantCulture, $", {Math.Ceiling(Math.Max(0, all - _done) / rate):0} s left")
            : "";
        return $"{name}: {done} read, {Size((long)rate)} a second{left}";
    }

    private static string Size(long bytes) => bytes switch
    {
        < 10_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes} bytes"),
        < 10_000_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e3:0} kB"),
        < 10_000_000_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e6:0} MB"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e9:0.0} GB"),
    };
}
