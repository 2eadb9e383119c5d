using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Places of the input that could not be used.</summary>
public static class FaultListText
{
    /// <summary>"c1.log: line 3, column 9: what was found (code)".</summary>
    public static string Of(Fault fault)
    {
        string line = fault.Line > 0 ? string.Create(CultureInfo.InvariantCulture, $"line {fault.Line}") : "";
        string column = fault.Column > 0 ? string.Create(CultureInfo.InvariantCulture, $"column {fault.Column}") : "";
        string place = line.Length > 0 && column.Length > 0 ? $"{line}, {column}" : line + column;
        return VisibleText.Of(string.Join(
            ": ", new[] { fault.File, place, $"{fault.Detail} ({fault.Code})" }.Where(part => part.Length > 0)));
    }

    internal static void Write(TextWriter writer, IReadOnlyCollection<Fault> faults, TextStyle style)
    {
        if (faults.Count == 0)
        {
            return;
        }

        writer.WriteLine();
        writer.WriteLine(style.Heading("Not read: ") + Amounts.Count(faults.Count, "place", "places"));
        foreach (Fault fault in faults)
        {
            Paragraph.WriteWrapped(writer, style, "  ", "    ", Of(fault));
        }
    }
}
