using System.Collections.Immutable;
using System.Globalization;

namespace Portwitness.Captures.Tables;

/// <summary>One column of a table: what it holds, which it is, and its unit.</summary>
/// <param name="Holds">What it holds: "time", "sop", "direction", "hex", "header", "crc"; of measurements "time", "volts", "amps".</param>
/// <param name="Column">Its number, counted from 1, or its name in the table's first line, without regard to case.</param>
/// <param name="Unit">
/// Its unit ("s", "ms", "us", "ns", "min", "h", or "hh:mm" and "mm:ss" of a clock; "V", "mV"; "A", "mA"); null when the table's first
/// line says it.
/// </param>
public sealed record TableColumn(string Holds, string Column, string? Unit)
{
    /// <summary>The number, counted from 1; null when it goes by name.</summary>
    internal int? Number => int.TryParse(Column, NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? number : null;
}

/// <summary>Which columns of a table hold what. Those that are not mapped are found by plain names in the first line.</summary>
public sealed record TableMapping
{
    /// <summary>Most columns of a table that are looked at.</summary>
    public const int MaxColumns = 1000;

    private static readonly string[] OfMessages = ["time", "sop", "direction", "hex", "header", "crc"];
    private static readonly string[] OfMeasurements = ["time", "volts", "amps"];

    /// <summary>What columns may hold.</summary>
    public static IReadOnlyList<string> NamesOf(bool ofMeasurements) => ofMeasurements ? OfMeasurements : OfMessages;

    /// <summary>The columns that are stated.</summary>
    public ImmutableArray<TableColumn> Columns { get; init; } = [];

    /// <summary>Reads "time=1:ms,sop=3,hex=7" of a table of messages.</summary>
    /// <param name="text">What is mapped: a number or a name, and a unit behind a colon where it has one.</param>
    /// <param name="problem">What is wrong, in words; null when nothing is.</param>
    public static TableMapping Parse(string text, out string? problem) =>
        From(Parts(text), ofMeasurements: false, out problem);

    /// <summary>Reads "time=1:ms,volts=2:mV,amps=3:mA" of a table of measurements.</summary>
    public static TableMapping ParseMeasurements(string text, out string? problem) =>
        From(Parts(text), ofMeasurements: true, out problem);

    /// <summary>The same with columns of another mapping where this one states none.</summary>
    public TableMapping Or(TableMapping other) => this with
    {
        Columns = [.. Columns, .. other.Columns.Where(column => Find(column.Holds) is null)],
    };

    /// <summary>The same with a unit of time, where none is stated with the column.</summary>
    /// <param name="unit">"s", "ms", "us", "ns", "min", "h", "hh:mm" or "mm:ss"; empty for none.</param>
    /// <param name="problem">What is wrong, in words; null when nothing is.</param>
    public TableMapping WithTimeUnit(string unit, out string? problem)
    {
        problem = null;
        if (unit.Length == 0)
        {
            return this;
        }

        if (TableUnits.Find("time", unit) is null)
        {
            problem = $"'{unit}' is no unit of time; expected {TableUnits.Expected("time")}.";
            return this;
        }

        TableColumn time = Find("time") ?? new TableColumn("time", "", null);
        return this with { Columns = [.. Columns.Where(column => column.Holds != "time"), time with { Unit = time.Unit ?? unit }] };
    }

    /// <summary>The column that holds something; null when it is not stated.</summary>
    public TableColumn? Find(string holds) => Columns.FirstOrDefault(column => column.Holds == holds);

    /// <summary>A mapping of columns that were stated one by one.</summary>
    /// <param name="columns">What they hold, their numbers or names, and their units.</param>
    /// <param name="ofMeasurements">Whether time, volts and amps may be mapped, or the columns of messages.</param>
    /// <param name="problem">What is wrong, in words; null when nothing is.</param>
    public static TableMapping From(IEnumerable<TableColumn> columns, bool ofMeasurements, out string? problem)
    {
        problem = null;
        string[] known = ofMeasurements ? OfMeasurements : OfMessages;
        List<TableColumn> taken = [];
        foreach (TableColumn column in columns)
        {
            string holds = column.Holds;
            problem ??= !known.Contains(holds) ? $"'{holds}' is no column that is known here; expected {string.Join(", ", known)}, each with = and a column."
                : column.Column.Length == 0 ? $"'{holds}' names no column; expected its number or its name, for example {holds}=1."
                : column.Number is 0 or > MaxColumns ? $"'{holds}={column.Column}': columns are counted from 1 to {MaxColumns}."
                : column.Unit is { } unit && TableUnits.Find(holds, unit) is null ? $"'{unit}' is no unit of {holds}; expected {TableUnits.Expected(holds)}."
                : taken.Exists(other => other.Holds == holds) ? $"'{holds}' is mapped twice."
                : null;
            taken.Add(column);
        }

        return new TableMapping { Columns = [.. taken] };
    }

    private static IEnumerable<TableColumn> Parts(string text)
    {
        foreach (string part in text.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            int equals = part.IndexOf('=', StringComparison.Ordinal);
            string holds = equals < 0 ? part : part[..equals].Trim();
            string column = equals < 0 ? "" : part[(equals + 1)..].Trim();
            int colon = column.IndexOf(':', StringComparison.Ordinal);
            while (colon >= 0 && TableUnits.Find(holds, column[(colon + 1)..].Trim()) is null)
            {
                colon = column.IndexOf(':', colon + 1);
            }

            bool hasUnit = colon >= 0;
            yield return hasUnit
                ? new TableColumn(holds, column[..colon].Trim(), column[(colon + 1)..].Trim())
                : new TableColumn(holds, column, null);
        }
    }
}
