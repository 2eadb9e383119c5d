using System.Text;
using Portwitness.Captures.Tables;

namespace Portwitness.Captures.PowerLogs;

/// <summary>
/// Columns of temperatures in °C, by their headings: those of surfaces, of which the hottest counts, and that of the room, which is headed "ambient" or
/// "room". A unit behind the name does not matter: "case (°C)" is "case".
/// </summary>
internal sealed class TemperatureColumns
{
    private const int MilliPower = 3;
    private const int LeastMillidegrees = -100_000;
    private const int MostMillidegrees = 1_000_000;

    private static readonly string[] RoomNames = ["ambient", "room"];

    private readonly List<int> _surfaces = [];
    private int _room = -1;

    private TemperatureColumns()
    {
    }

    /// <summary>Names of which the line of headings has none.</summary>
    public List<string> Missing { get; } = [];

    /// <summary>Finds the columns.</summary>
    public static TemperatureColumns Find(RowSplitter headings, IEnumerable<string> names)
    {
        TemperatureColumns columns = new();
        foreach (string name in names)
        {
            int cell = 0;
            while (cell < headings.Count && NameOf(Encoding.UTF8.GetString(headings[cell])) != NameOf(name))
            {
                cell++;
            }

            if (cell == headings.Count)
            {
                columns.Missing.Add(name);
            }
            else if (Array.Exists(RoomNames, room => NameOf(name) == room))
            {
                columns._room = cell;
            }
            else
            {
                columns._surfaces.Add(cell);
            }
        }

        return columns;
    }

    /// <summary>The hottest surface and the room of a row, in thousandths of a °C; null for what was not read.</summary>
    public (int? Surface, int? Room) Read(RowSplitter row)
    {
        int? surface = null;
        foreach (int cell in _surfaces)
        {
            surface = Value(row, cell) is { } read ? Math.Max(surface ?? int.MinValue, read) : surface;
        }

        return (surface, Value(row, _room));
    }

    private static int? Value(RowSplitter row, int cell) =>
        cell >= 0 && cell < row.Count && default(TableUnit).TryRead(row[cell], MilliPower, out long value) && value is >= LeastMillidegrees and <= MostMillidegrees ? (int)value : null;

    private static string NameOf(string heading)
    {
        int unit = heading.IndexOfAny(['(', '[']);
        string name = unit > 0 ? heading[..unit] : heading;
        return string.Concat(name.Where(char.IsLetterOrDigit)).ToLowerInvariant();
    }
}
