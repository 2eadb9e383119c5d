using System.Globalization;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Batches;

/// <summary>
/// One line on a terminal that tells how far a batch is: products done and failing, rate, and the time left. What is said in between
/// stands above it.
/// </summary>
internal sealed class BatchProgress(Terminal terminal, int total, bool quiet, TimeProvider time)
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(200);

    private readonly bool _watched = terminal.ErrorIsTerminal && !quiet;
    private readonly long _began = time.GetTimestamp();
    private long _shown = time.GetTimestamp();
    private int _done;
    private int _checked;
    private int _failing;
    private int _width;

    /// <summary>Whether a person watches, who is told of single products only where something is amiss.</summary>
    public bool IsWatched => _watched;

    /// <summary>Counts a product.</summary>
    /// <param name="fails">It failed, or could not be read.</param>
    /// <param name="skipped">It was known from before, and says nothing about the rate.</param>
    public void Add(bool fails, bool skipped)
    {
        _done++;
        _checked += skipped ? 0 : 1;
        _failing += fails ? 1 : 0;
        if (_watched && time.GetElapsedTime(_shown) >= Pause)
        {
            _shown = time.GetTimestamp();
            Show();
        }
    }

    /// <summary>Says something in a line of its own.</summary>
    public void Say(string message)
    {
        End();
        terminal.Say(message);
    }

    /// <summary>Takes the line away.</summary>
    public void End()
    {
        if (_width > 0)
        {
            terminal.Error.Write("\r" + new string(' ', _width) + "\r");
            terminal.Error.Flush();
            _width = 0;
        }
    }

    private void Show()
    {
        double rate = _checked / time.GetElapsedTime(_began).TotalSeconds;
        string left = rate > 0 ? string.Create(CultureInfo.InvariantCulture, $", {Math.Ceiling((total - _done) / rate):0} s left") : "";
        string line = string.Create(
            CultureInfo.InvariantCulture, $"{_done} of {total} products, {_failing} failing, {rate:0.#} a second{left}");
        line = line.Length < terminal.Columns ? line : line[..(terminal.Columns - 1)];
        terminal.Error.Write("\r" + line.PadRight(_width));
        terminal.Error.Flush();
        _width = line.Length;
    }
}
