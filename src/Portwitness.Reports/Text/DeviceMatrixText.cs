using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What devices would get, a row each, with a column for each port under each arrangement.</summary>
internal static class DeviceMatrixText
{
    private const int MaxColumns = 100;

    public static void Write(TextWriter writer, DeviceMatrix? matrix, TextStyle style)
    {
        if (matrix is null || matrix.Rows.Count == 0)
        {
            return;
        }

        writer.WriteLine();
        writer.WriteLine(style.Heading("What described devices would get"));
        List<string[]> columns = Columns(matrix);
        for (int first = 0; first < columns.Count;)
        {
            int count = Fitting(matrix, columns, first, style.Width);
            Block(matrix, columns.GetRange(first, count)).Write(writer, "  ");
            first += count;
        }

        Paragraph.WriteWrapped(writer, style, "  ", "  ", Legend(matrix, columns));
    }

    /// <summary>A heading and a cell for each device, for each row of the matrix.</summary>
    public static List<string[]> Columns(DeviceMatrix matrix)
    {
        List<DeviceMatrixRow> rows = [.. matrix.Rows.Take(MaxColumns)];
        bool sameName = rows.Select(static row => NegotiationText.PortIn(row.Port, row.InUse)).Distinct().Count() < rows.Count;
        return [.. rows.Select(row => Column(row, sameName))];
    }

    /// <summary>What the marks mean, and how devices choose.</summary>
    public static string Legend(DeviceMatrix matrix, List<string[]> columns)
    {
        HashSet<char> marks = [.. columns.SelectMany(static column => column.Skip(1)).Select(static cell => cell[^1])];
        string legend = string.Concat(
            marks.Contains('*') ? "* less than it wishes; " : "",
            marks.Contains('!') ? "! less than it needs; " : "",
            marks.Contains('?') ? "? less than it wishes, where more may be offered than was seen; " : "");
        long unlisted = matrix.Unlisted + matrix.Rows.Count - columns.Count;
        string more = unlisted > 0 ? $"; {unlisted} more arrangements are not shown" : "";
        return $"{legend}each with the cable of its description, by the policy {matrix.Policy.Name}: {matrix.Policy.Text}. Generic devices, no products"
            + $" ('portwitness negotiate --list' describes them){more}.";
    }

    private static string[] Column(DeviceMatrixRow row, bool withFile) =>
    [
        NegotiationText.PortIn(row.Port, row.InUse) + (withFile ? $" ({row.File})" : ""),
        .. row.Cells.Select(static cell => cell.HasObjectPosition ? $"{Amounts.Watts(cell.PowerMw)}{Mark(cell)}" : $"none{Mark(cell)}"),
    ];

    private static string Mark(DeviceMatrixCell cell) =>
        cell.GetsWish == Verdict.Holds ? ""
        : cell.GetsWish == Verdict.CannotTell ? " ?"
        : cell.GetsMinimum == Verdict.Fails ? " !" : " *";

    // As many columns as there is room for, and one at least.
    private static int Fitting(DeviceMatrix matrix, List<string[]> columns, int first, int width)
    {
        int room = width - 2 - matrix.Sinks.Max(static sink => VisibleText.Columns(sink.Name)) - 2 - "000 W".Length;
        int count = 0;
        while (first + count < columns.Count)
        {
            room -= 2 + columns[first + count].Max(VisibleText.Columns);
            if (room < 0 && count > 0)
            {
                break;
            }

            count++;
        }

        return count;
    }

    /// <summary>Some of the columns beside the devices.</summary>
    public static TextTable Block(DeviceMatrix matrix, List<string[]> columns)
    {
        TextTable table = new();
        table.Add(["device", "wish", .. columns.Select(static column => column[0])]);
        for (int device = 0; device < matrix.Sinks.Count; device++)
        {
            Sink sink = matrix.Sinks[device];
            table.Add([sink.Name, Amounts.Watts(sink.WishMw), .. columns.Select(column => device + 1 < column.Length ? column[device + 1] : "")]);
        }

        return table;
    }
}
