using System.Text;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.Tables;

/// <summary>Where the columns of one table are, found from the mapping and the table's first line.</summary>
internal sealed class TableColumns
{
    private readonly Dictionary<string, (int Cell, TableUnit? Unit)> _found = [];

    private TableColumns(bool firstLineIsHeading) => FirstLineIsHeading = firstLineIsHeading;

    /// <summary>Whether the first line holds headings and no record.</summary>
    public bool FirstLineIsHeading { get; }

    /// <summary>The column's place, counted from 0; -1 when there is none.</summary>
    public int this[string holds] => _found.TryGetValue(holds, out (int Cell, TableUnit? Unit) column) ? column.Cell : -1;

    /// <summary>A column's unit; null when nothing states it.</summary>
    public TableUnit? UnitOf(string holds) => _found.TryGetValue(holds, out (int Cell, TableUnit? Unit) column) ? column.Unit : null;

    /// <summary>Finds the columns; null, with a fault, when one that is needed is missing.</summary>
    /// <param name="first">The first line that is no comment.</param>
    /// <param name="mapping">What the user stated.</param>
    /// <param name="ofMeasurements">Time, volts and amps, or the columns of messages.</param>
    /// <param name="line">The line's number.</param>
    /// <param name="faults">Where what is missing is reported.</param>
    public static TableColumns? Find(RowSplitter first, TableMapping mapping, bool ofMeasurements, long line, FaultLog faults)
    {
        int? timeAt = mapping.Find("time")?.Number - 1;
        bool isHeading = timeAt is not { } at || !TimeText.TryRead(first[at], default, out _, out _);
        TableColumns columns = new(isHeading);
        foreach (TableColumn stated in mapping.Columns.Where(column => column.Column.Length > 0))
        {
            int cell = stated.Number is { } number ? number - 1 : isHeading ? Named(first, stated.Column) : -1;
            if (cell < 0 || cell >= first.Count)
            {
                faults.Report(line, 1, FaultCodes.TableColumns, FaultText.TableColumnMissing(stated.Column, stated.Holds, Shown(first)));
                return null;
            }

            TableUnit? ofHeading = isHeading ? TableHeading.UnitFor(first[cell], stated.Holds) : null;
            columns._found[stated.Holds] = (cell, stated.Unit is { } unit ? TableUnits.Find(stated.Holds, unit) : ofHeading);
        }

        if (isHeading)
        {
            columns.FindByHeadings(first, mapping, ofMeasurements);
        }

        string[] missing = ofMeasurements
            ? [.. Missing(columns, "time"), .. columns["volts"] < 0 && columns["amps"] < 0 ? new[] { "volts" } : []]
            : [.. Missing(columns, "time"), .. columns["header"] < 0 ? Missing(columns, "hex") : []];
        if (missing.Length == 0)
        {
            return columns;
        }

        faults.Report(line, 1, FaultCodes.TableColumns, FaultText.TableColumnsMissing(missing, ofMeasurements, Shown(first)));
        return null;
    }

    private static IEnumerable<string> Missing(TableColumns columns, string holds) => columns[holds] < 0 ? [holds] : [];

    private static int Named(RowSplitter first, string name)
    {
        for (int cell = 0; cell < first.Count; cell++)
        {
            if (string.Equals(Encoding.UTF8.GetString(first[cell]), name, StringComparison.OrdinalIgnoreCase))
            {
                return cell;
            }
        }

        return -1;
    }

    private static byte[] Shown(RowSplitter first)
    {
        using MemoryStream text = new();
        for (int cell = 0; cell < Math.Min(first.Count, 20); cell++)
        {
            text.Write(cell == 0 ? ""u8 : ", "u8);
            text.Write(first[cell]);
        }

        return text.ToArray();
    }

    // Exact names go before words: "Data" before "Data Sheet", wherever they stand.
    private void FindByHeadings(RowSplitter first, TableMapping mapping, bool ofMeasurements)
    {
        foreach (HeadingMatch match in Enum.GetValues<HeadingMatch>())
        {
            for (int cell = 0; cell < first.Count; cell++)
            {
                HeadingReading heading = TableHeading.Read(first[cell], ofMeasurements);
                if (heading.Holds is { } holds && heading.Match == match && !_found.ContainsKey(holds)
                    && _found.Values.All(other => other.Cell != cell))
                {
                    _found[holds] = (cell, mapping.Find(holds)?.Unit is { } unit ? TableUnits.Find(holds, unit) : heading.Unit);
                }
            }
        }
    }
}
