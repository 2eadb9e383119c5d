using System.Text;

namespace Portwitness.Captures.Waveforms;

/// <summary>Which columns of a table are the time and the voltage of the CC line, and in which units.</summary>
internal sealed record VoltageColumns(int Time, int TimeDecimals, int Voltage, int VoltageDecimals)
{
    private const int MaxColumns = 64;
    private const int PortLines = 2;
    private const int Seconds = 12;
    private const int Volts = 6;

    /// <summary>The name of the voltage's column.</summary>
    public string Name { get; private init; } = "";

    /// <summary>
    /// Finds them: one, or the two CC lines of one port. None, with the names that there are, when they cannot be told.
    /// </summary>
    /// <param name="heading">The row above the first numbers, or one with as many empty cells.</param>
    /// <param name="count">How many cells the rows have.</param>
    /// <param name="options">What was stated.</param>
    /// <param name="known">The names of columns that may be meant.</param>
    public static VoltageColumns[] Find(ReadOnlySpan<byte> heading, int count, WaveformOptions options, out string known)
    {
        NumberRow names = new(heading);
        List<(string Name, string Unit)> columns = [];
        for (int i = 0; i < Math.Min(count, MaxColumns); i++)
        {
            columns.Add(Split(Encoding.UTF8.GetString(names.Cell(i)), i));
        }

        int time = Math.Max(columns.FindIndex(column => IsTime(column.Name)), 0);
        int[] others = [.. Enumerable.Range(0, columns.Count).Where(i => i != time)];
        known = string.Join(", ", others.Select(i => FaultText.Printable(columns[i].Name)));
        int[] fitting = options.Signal is { } signal
            ? [.. others.Where(i => columns[i].Name.Equals(signal, StringComparison.OrdinalIgnoreCase))]
            : others.Length == 1 ? others : [.. others.Where(i => VcdSignals.SoundsLikeCc(columns[i].Name))];
        return fitting.Length is 1 or PortLines ? [.. fitting.Select(Of)] : [];

        VoltageColumns Of(int voltage) => new(
            time, options.Units?.Time ?? WaveformOptions.TimeDecimals(columns[time].Unit) ?? Seconds,
            voltage, options.Units?.Voltage ?? WaveformOptions.VoltageDecimals(columns[voltage].Unit) ?? Volts)
        {
            Name = columns[voltage].Name,
        };
    }

    private static bool IsTime(string name) =>
        name.Contains("time", StringComparison.OrdinalIgnoreCase) || name.Equals("t", StringComparison.OrdinalIgnoreCase)
        || name.StartsWith("second", StringComparison.OrdinalIgnoreCase);

    // "CC1 (mV)", "time [us]", "cc_mV"; a column without a name is called by its number.
    private static (string Name, string Unit) Split(string text, int index)
    {
        int open = text.IndexOfAny(['(', '[']);
        if (open >= 0)
        {
            return (Named(text[..open].TrimEnd(), index), text[(open + 1)..].TrimEnd(')', ']', ' '));
        }

        int underscore = text.LastIndexOf('_');
        string unit = underscore < 0 ? "" : text[(underscore + 1)..];
        bool isUnit = WaveformOptions.TimeDecimals(unit) is not null || WaveformOptions.VoltageDecimals(unit) is not null;
        return (Named(isUnit ? text[..underscore] : text, index), isUnit ? unit : "");
    }

    private static string Named(string name, int index) =>
        name.Length > 0 ? name : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{index + 1}");
}
