using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Proofing;

/// <summary>What labels print.</summary>
/// <param name="list">Where the amounts go.</param>
internal sealed class PrintedAmounts(AmountList list)
{
    /// <summary>Outputs that are a cable of the product.</summary>
    public HashSet<string> Cables { get; } = [];

    /// <summary>Adds a label.</summary>
    /// <param name="label">The label.</param>
    /// <param name="name">What it is called.</param>
    public void Add(Label label, string name)
    {
        foreach (PrintedInput input in label.Inputs)
        {
            string where = $"{name}, line {Amounts.Number(input.Line)}";
            list.AddRange(input.HasMinVoltageMv ? input.MinVoltageMv : input.MaxVoltageMv, input.MaxVoltageMv, input.Port, RecordKind.Printed, where);
            list.AddMode(input.Port, input.HasCurrentMa ? input.CurrentMa : null, input.HasPowerMw ? input.PowerMw : null, null, RecordKind.Printed, where);
            foreach (int hertz in input.FrequencyHz)
            {
                list.Add(ArticleDimension.Frequency, hertz, hertz, input.Port, "", RecordKind.Printed, where);
            }
        }

        foreach (PrintedOutput output in label.Outputs)
        {
            if (output.CaptiveCable)
            {
                Cables.Add(output.Port);
            }

            foreach (PrintedFixed mode in output.Fixed)
            {
                AddPrinted(output.Port, mode, name, isTogether: false);
            }

            foreach (PrintedRange range in output.Ranges)
            {
                string where = $"{name}, line {Amounts.Number(range.Line)}";
                list.AddRange(range.MinVoltageMv, range.MaxVoltageMv, output.Port, RecordKind.Printed, where);
                list.AddMode(output.Port, range.CurrentMa, range.HasPowerMw ? range.PowerMw : null, null, RecordKind.Printed, where);
            }

            if (output.HasMaxPowerMw)
            {
                list.AddPower(output.Port, output.MaxPowerMw, RecordKind.Printed, $"{name}, line {Amounts.Number(output.MaxPowerLine)}", isTogether: false, isMaximum: true);
            }

            foreach (PrintedProtocolMaximum maximum in output.ProtocolMaxima)
            {
                list.AddPower(output.Port, maximum.PowerMw, RecordKind.Printed, $"{name}, line {Amounts.Number(maximum.Line)}");
            }
        }

        foreach (PrintedCombination together in label.Combinations)
        {
            AddCombination(together, name);
        }

        foreach (PrintedPad pad in label.Pads)
        {
            foreach (int power in pad.PowerMw)
            {
                list.AddPower(pad.Name, power, RecordKind.Printed, $"{name}, line {Amounts.Number(pad.Line)}");
            }
        }

        foreach (PrintedInputMaximum maximum in label.InputMaxima)
        {
            list.AddPower(maximum.Port, maximum.PowerMw, RecordKind.Printed, $"{name}, line {Amounts.Number(maximum.Line)}");
        }

        if (label.Total is { } total)
        {
            list.Add(ArticleDimension.Power, total.PowerMw / 1000m, total.PowerMw / 1000m, "", "total", RecordKind.Printed, $"{name}, line {Amounts.Number(total.Line)}");
        }

        AddBattery(label.Battery, name);
        foreach (PrintedPerformance performance in label.Performance)
        {
            string where = $"{name}, line {Amounts.Number(performance.Line)}";
            if (performance.HasPartsPerMillion)
            {
                list.Add(ArticleDimension.Ratio, performance.PartsPerMillion / 1_000_000m, performance.PartsPerMillion / 1_000_000m, "", "efficiency", RecordKind.Printed, where);
            }

            if (performance.HasPowerMw)
            {
                list.AddPower("", performance.PowerMw, RecordKind.Printed, where);
            }
        }
    }

    private void AddCombination(PrintedCombination together, string name)
    {
        string where = $"{name}, line {Amounts.Number(together.Line)}";
        foreach (PrintedShare share in together.Split)
        {
            if (share.HasPowerMw)
            {
                list.AddPower(share.Port, share.PowerMw, RecordKind.Printed, where, isTogether: true, isMaximum: true);
            }

            foreach (PrintedFixed mode in share.Fixed)
            {
                AddPrinted(share.Port, mode, name, isTogether: true);
            }
        }

        foreach (PrintedPool pool in together.Pools)
        {
            list.AddMode("", pool.HasCurrentMa ? pool.CurrentMa : null, pool.HasPowerMw ? pool.PowerMw : null, pool.HasVoltageMv ? pool.VoltageMv : null, RecordKind.Printed, where);
        }

        if (together.HasTotalPowerMw)
        {
            list.AddPower("", together.TotalPowerMw, RecordKind.Printed, where, isTogether: true);
        }
    }

    private void AddBattery(PrintedBattery? battery, string name)
    {
        IEnumerable<PrintedBattery> all = battery is null ? [] : battery.Statements.Count > 0 ? battery.Statements : [battery];
        foreach (PrintedBattery one in all)
        {
            string where = $"{name}, line {Amounts.Number(one.Line)}";
            Add(ArticleDimension.Charge, one.HasCapacityMah, one.CapacityMah, "capacity", where);
            Add(ArticleDimension.Charge, one.HasRatedCapacityMah, one.RatedCapacityMah, "rated-capacity", where);
            Add(ArticleDimension.Energy, one.HasEnergyMwh, one.EnergyMwh, "energy", where);
            Add(ArticleDimension.Voltage, one.HasNominalVoltageMv, one.NominalVoltageMv, "", where);
            Add(ArticleDimension.Voltage, one.HasRatedVoltageMv, one.RatedVoltageMv, "", where);
            Add(ArticleDimension.Current, one.HasRatedCurrentMa, one.RatedCurrentMa, "", where);
        }
    }

    private void AddPrinted(string port, PrintedFixed mode, string name, bool isTogether) => list.AddMode(
        port, mode.CurrentMa, mode.HasPowerMw ? mode.PowerMw : null, mode.VoltageMv, RecordKind.Printed, $"{name}, line {Amounts.Number(mode.Line)}", isTogether);

    private void Add(ArticleDimension dimension, bool isPrinted, long thousandths, string topic, string where)
    {
        if (isPrinted)
        {
            list.Add(dimension, thousandths / 1000m, thousandths / 1000m, "", topic, RecordKind.Printed, where);
        }
    }
}
