using System.Globalization;
using Google.Protobuf.Collections;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What the ports of a product do together: how power is shared, every arrangement, and what comes and goes.</summary>
internal static class ArrangementText
{
    public static void Write(TextWriter writer, ProductReport report, TextStyle style)
    {
        if (report.Sharing is not { } sharing)
        {
            return;
        }

        writer.WriteLine();
        writer.WriteLine(style.Heading("Ports together"));
        Paragraph.WriteWrapped(writer, style, "  ", "  ", sharing.Sentence);
        Paragraph.Write(writer, style, "  ", "seen", sharing.Evidence);
        Paragraph.Write(writer, style, "  ", "next", sharing.NextStep);
        if (sharing.HasCombinationsPrinted)
        {
            writer.WriteLine($"  combinations: {Combinations(sharing)}");
        }

        if (report.Arrangements.Count > 0)
        {
            writer.WriteLine();
            Arrangements(report.Arrangements).Write(writer, "  ");
        }

        if (report.NeighbourChanges.Count > 0)
        {
            writer.WriteLine();
            Changes(report.NeighbourChanges).Write(writer, "  ");
        }
    }

    /// <summary>"3 printed, 2 of them captured, 1 hold".</summary>
    public static string Combinations(Sharing sharing) => string.Create(
        CultureInfo.InvariantCulture,
        $"{sharing.CombinationsPrinted} printed, {sharing.CombinationsCaptured} of them captured, {sharing.CombinationsHold} hold");

    /// <summary>Each port under each arrangement.</summary>
    public static TextTable Arrangements(RepeatedField<PortInArrangement> arrangements)
    {
        TextTable table = new();
        table.Add("attached", "port", "offered", "contract", "measured", "against the port alone");
        foreach (PortInArrangement row in arrangements.OrderBy(row => row.InUse.Count).ThenBy(Attached, StringComparer.Ordinal))
        {
            table.Add(
                Attached(row), row.Port, Offered(row), row.Contract is { } contract ? Granted(contract) : "-",
                row.HasMeasuredMw ? Amounts.Watts(row.MeasuredMw) : "-", Against(row));
        }

        return table;
    }

    /// <summary>What ports went through when their neighbours came and went.</summary>
    public static TextTable Changes(RepeatedField<NeighbourChange> changes)
    {
        TextTable table = new();
        table.Add("port", "beside it", "at", "offered", "list after", "contract after", "VBUS");
        foreach (NeighbourChange change in changes)
        {
            table.Add(
                change.Port, $"{change.Event} {change.Neighbour}", Amounts.Seconds(change.AtUs),
                $"{(change.HasOfferedBeforeMw ? Amounts.Watts(change.OfferedBeforeMw) : Amounts.Unknown)} → "
                + (change.HasOfferedAfterMw ? Amounts.Watts(change.OfferedAfterMw) : Amounts.Unknown),
                change.HasListUs ? Milliseconds(change.ListUs - change.AtUs) : "-",
                change.HasReadyUs ? Milliseconds(change.ReadyUs - change.AtUs) : "-",
                Vbus(change));
        }

        return table;
    }

    // "65 W for 10 min 2 s, then 45 W".
    private static string Offered(PortInArrangement row) => row.HasOfferedBeforeMw
        ? $"{Amounts.Watts(row.OfferedBeforeMw)} for {Amounts.Duration(row.OfferedBeforeForUs)}, then {Amounts.Watts(row.OfferedMw)}"
        : Amounts.Watts(row.OfferedMw);

    private static string Attached(PortInArrangement row) => row.InUse.Count <= 1 ? "alone"
        : string.Join(row.AttachOrderKnown ? ", then " : " and ", row.InUse);

    private static string Granted(Contract contract)
    {
        string amount = contract.HasCurrentMa ? Amounts.Amperes(contract.CurrentMa)
            : contract.HasPowerMw ? Amounts.Watts(contract.PowerMw) : Amounts.Unknown;
        return contract.HasVoltageMv ? $"{Amounts.Volts(contract.VoltageMv)} {amount}" : amount;
    }

    private static string Against(PortInArrangement row)
    {
        if (row.InUse.Count <= 1)
        {
            return "";
        }

        if (!row.HasAloneMw)
        {
            return "not captured alone";
        }

        return row.Changes.Count == 0 ? "the same" : string.Join(", ", row.Changes.Select(change => change.Kind switch
        {
            "lost" => $"no {Plain(change.Alone)}",
            "added" => $"also {Plain(change.Now)}",
            _ => $"{Plain(change.Alone)} → {Plain(change.Now)[Common(Plain(change.Alone), Plain(change.Now))..]}",
        }));
    }

    // "20 V 3.25 A → 2.25 A": the voltage that both begin with is said once.
    private static int Common(string alone, string now)
    {
        int common = 0;
        for (int at = 0; at < Math.Min(alone.Length, now.Length) && alone[at] == now[at]; at++)
        {
            common = alone[at] == ' ' && at > 1 && alone[at - 1] == 'V' ? at + 1 : common;
        }

        return common;
    }

    private static string Plain(string offered) => offered.StartsWith("fixed ", StringComparison.Ordinal) ? offered["fixed ".Length..] : offered;

    private static string Vbus(NeighbourChange change)
    {
        string reset = change.HasHardResetUs ? "; Hard Reset" : "";
        if (change.Interruption is { } lost)
        {
            string time = lost.HasEndUs ? $"out for {Milliseconds(lost.EndUs - lost.StartUs)}" : "out until the end";
            return $"{time}, down to {Amounts.Volts(lost.DeepestMv)}{reset}";
        }

        if (change.HasVbusOffUs)
        {
            return (change.HasVbusOnUs ? $"gone for {Milliseconds(change.VbusOnUs - change.VbusOffUs)}" : "gone") + reset;
        }

        return $"{(change.VbusMeasured ? "stayed" : "not measured")}{reset}";
    }

    private static string Milliseconds(long microseconds) =>
        string.Create(CultureInfo.InvariantCulture, $"{(microseconds + (microseconds < 0 ? -500 : 500)) / 1000} ms");
}
