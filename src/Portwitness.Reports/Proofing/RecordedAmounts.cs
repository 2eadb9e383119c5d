using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Proofing;

/// <summary>Every amount of a report that an article may speak of.</summary>
internal sealed class RecordedAmounts
{
    private readonly List<RecordedAmount> _all = [];
    private readonly HashSet<string> _ports = [];

    /// <summary>Takes a report apart.</summary>
    public RecordedAmounts(ProductReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        if (report.Label is { } label)
        {
            AddLabel(label, report.LabelName.Length > 0 ? report.LabelName : "label");
        }

        foreach (FurtherLabel further in report.FurtherLabels.Where(static further => further.Label is not null))
        {
            AddLabel(further.Label, further.Name);
        }

        foreach (PortReport port in report.Ports)
        {
            foreach (ArrangementReport arrangement in port.Arrangements)
            {
                AddCaptured(arrangement.LabelPort.Length > 0 ? arrangement.LabelPort : port.Port, arrangement);
            }
        }

        foreach (PowerLog log in report.PowerLogs)
        {
            AddLog(log);
        }

        foreach (AdapterResult adapter in report.Adapter.Where(static adapter => adapter.HasAverageEfficiencyPpm))
        {
            decimal open = adapter.UncertaintyPpm / 1_000_000m;
            decimal value = adapter.AverageEfficiencyPpm / 1_000_000m;
            Add(ArticleDimension.Ratio, value - open, value + open, "", "efficiency", RecordKind.Measured, $"average efficiency at {Amounts.Volts(adapter.OutputMv)}");
        }

        AddTold(report);
    }

    /// <summary>All amounts.</summary>
    public IReadOnlyList<RecordedAmount> All => _all;

    /// <summary>Outputs that are a cable of the product.</summary>
    public HashSet<string> Cables { get; } = [];

    /// <summary>The ports that are named.</summary>
    public IReadOnlyCollection<string> Ports => _ports;

    private void AddLabel(Label label, string name)
    {
        foreach (PrintedInput input in label.Inputs)
        {
            string where = $"{name}, line {Amounts.Number(input.Line)}";
            AddRange(input.HasMinVoltageMv ? input.MinVoltageMv : input.MaxVoltageMv, input.MaxVoltageMv, input.Port, RecordKind.Printed, where);
            AddMode(input.Port, input.HasCurrentMa ? input.CurrentMa : null, input.HasPowerMw ? input.PowerMw : null, null, RecordKind.Printed, where);
            foreach (int hertz in input.FrequencyHz)
            {
                Add(ArticleDimension.Frequency, hertz, hertz, input.Port, "", RecordKind.Printed, where);
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
                AddRange(range.MinVoltageMv, range.MaxVoltageMv, output.Port, RecordKind.Printed, where);
                AddMode(output.Port, range.CurrentMa, range.HasPowerMw ? range.PowerMw : null, null, RecordKind.Printed, where);
            }

            if (output.HasMaxPowerMw)
            {
                AddPower(output.Port, output.MaxPowerMw, RecordKind.Printed, $"{name}, line {Amounts.Number(output.MaxPowerLine)}", isTogether: false, isMaximum: true);
            }

            foreach (PrintedProtocolMaximum maximum in output.ProtocolMaxima)
            {
                AddPower(output.Port, maximum.PowerMw, RecordKind.Printed, $"{name}, line {Amounts.Number(maximum.Line)}");
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
                AddPower(pad.Name, power, RecordKind.Printed, $"{name}, line {Amounts.Number(pad.Line)}");
            }
        }

        foreach (PrintedInputMaximum maximum in label.InputMaxima)
        {
            AddPower(maximum.Port, maximum.PowerMw, RecordKind.Printed, $"{name}, line {Amounts.Number(maximum.Line)}");
        }

        if (label.Total is { } total)
        {
            Add(ArticleDimension.Power, total.PowerMw / 1000m, total.PowerMw / 1000m, "", "total", RecordKind.Printed, $"{name}, line {Amounts.Number(total.Line)}");
        }

        AddBattery(label.Battery, name);
        foreach (PrintedPerformance performance in label.Performance)
        {
            string where = $"{name}, line {Amounts.Number(performance.Line)}";
            if (performance.HasPartsPerMillion)
            {
                Add(ArticleDimension.Ratio, performance.PartsPerMillion / 1_000_000m, performance.PartsPerMillion / 1_000_000m, "", "efficiency", RecordKind.Printed, where);
            }

            if (performance.HasPowerMw)
            {
                AddPower("", performance.PowerMw, RecordKind.Printed, where);
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
                AddPower(share.Port, share.PowerMw, RecordKind.Printed, where, isTogether: true, isMaximum: true);
            }

            foreach (PrintedFixed mode in share.Fixed)
            {
                AddPrinted(share.Port, mode, name, isTogether: true);
            }
        }

        foreach (PrintedPool pool in together.Pools)
        {
            AddMode("", pool.HasCurrentMa ? pool.CurrentMa : null, pool.HasPowerMw ? pool.PowerMw : null, pool.HasVoltageMv ? pool.VoltageMv : null, RecordKind.Printed, where);
        }

        if (together.HasTotalPowerMw)
        {
            AddPower("", together.TotalPowerMw, RecordKind.Printed, where, isTogether: true);
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

    private void AddCaptured(string port, ArrangementReport arrangement)
    {
        bool isTogether = arrangement.InUse.Count > 1;
        string where = $"{arrangement.File}{(isTogether ? $", {string.Join('+', arrangement.InUse)} in use" : "")}";
        if (arrangement.Offered is { } offered)
        {
            foreach (PowerObject one in offered.Objects)
            {
                AddObject(port, one, where, isTogether);
            }

            if (offered.HasPdpMw)
            {
                AddPower(port, offered.PdpMw, RecordKind.Offered, where, isTogether, isMaximum: true);
            }
        }

        foreach (Contract contract in arrangement.Contracts)
        {
            AddMode(
                port, contract.HasCurrentMa ? contract.CurrentMa : null, contract.HasPowerMw ? contract.PowerMw : null,
                contract.HasVoltageMv ? contract.VoltageMv : null, RecordKind.Offered, where, isTogether);
            if (contract.Measured is { } measured)
            {
                Add(ArticleDimension.Voltage, measured.LeastMv / 1000m, measured.MostMv / 1000m, port, "", RecordKind.Measured, where, isTogether);
                if (measured.HasMostCurrentMa)
                {
                    decimal amperes = measured.MostCurrentMa / 1000m;
                    Add(ArticleDimension.Current, amperes, amperes, port, "", RecordKind.Measured, where, isTogether);
                    Add(ArticleDimension.Power, measured.LeastMv * amperes / 1000m, measured.MostMv * amperes / 1000m, port, "", RecordKind.Measured, where, isTogether);
                }
            }
        }
    }

    private void AddObject(string port, PowerObject one, string where, bool isTogether)
    {
        IReadOnlyList<ArticleAmount> amounts = new ArticleReader(string.Join(", ", PowerObjectRow.Of(one)[2..6])).Amounts;
        foreach (ArticleAmount amount in amounts)
        {
            Add(amount.Unit.Dimension, amount.Value, amount.Value, port, "", RecordKind.Offered, where, isTogether);
        }

        if (amounts is [{ Unit.Dimension: ArticleDimension.Voltage } volts, { Unit.Dimension: ArticleDimension.Current } amperes])
        {
            Add(ArticleDimension.Power, volts.Value * amperes.Value, volts.Value * amperes.Value, port, "", RecordKind.Offered, where, isTogether);
        }
    }

    private void AddLog(PowerLog log)
    {
        string where = $"{log.File}{(log.At.Length > 0 ? $", {log.Kind} at {log.At}" : "")}";
        AddMeasured(ArticleDimension.Charge, log.ChargeUah, log.Kind == "charge" ? "" : "rated-capacity", log.Port, where);
        AddMeasured(ArticleDimension.Energy, log.EnergyUwh, log.Kind == "charge" ? "" : "energy", log.Port, where);
        if (log is { HasMeanUv: true, HasMeanUa: true })
        {
            decimal volts = Math.Abs(log.MeanUv) / 1_000_000m;
            decimal amperes = Math.Abs(log.MeanUa) / 1_000_000m;
            Add(ArticleDimension.Voltage, volts, volts, log.Port, "", RecordKind.Measured, where);
            Add(ArticleDimension.Current, amperes, amperes, log.Port, "", RecordKind.Measured, where);
            Add(ArticleDimension.Power, volts * amperes, volts * amperes, log.Port, "", RecordKind.Measured, where);
        }

        Add(ArticleDimension.Time, log.LoadUs / 1_000_000m, log.LoadUs / 1_000_000m, log.Port, "", RecordKind.Measured, where);
        if (log.HasEfficiencyPpm)
        {
            Add(ArticleDimension.Ratio, log.EfficiencyPpm / 1_000_000m, log.EfficiencyPpm / 1_000_000m, log.Port, "efficiency", RecordKind.Measured, where);
        }
    }

    private void AddMeasured(ArticleDimension dimension, MeasuredAmount? amount, string topic, string port, string where)
    {
        if (amount is not null)
        {
            decimal least = Math.Min(Math.Abs(amount.Least), Math.Abs(amount.Value)) / 1_000_000m;
            decimal most = Math.Max(Math.Abs(amount.HasMost ? amount.Most : amount.Value), Math.Abs(amount.Value)) / 1_000_000m;
            Add(dimension, least, most, port, topic, RecordKind.Measured, where);
        }
    }

    // What evidence, tables and findings say in words: typed readings, sizes, masses, times.
    private void AddTold(ProductReport report)
    {
        foreach (Statement statement in report.Statements.Concat(report.FurtherLabels.SelectMany(static further => further.Statements)))
        {
            AddTold(statement.Evidence, statement.Port, $"evidence for \"{statement.Claim}\"");
        }

        foreach (PackFigure figure in report.Pack)
        {
            AddTold($"{figure.Basis}; {PackTable.Value(figure)}", "", $"the pack by weight, ruler and arithmetic: {figure.About}");
        }

        foreach (PartResult part in report.Parts)
        {
            AddTold($"{part.Rating}; {Amounts.Volts(part.HasRatedMv ? part.RatedMv : null)}, {Amounts.Amperes(part.HasRatedMa ? part.RatedMa : null)}", "", $"part {part.Part}");
        }

        foreach (TeardownEntry entry in report.Teardown)
        {
            AddTold(entry.Ratings, "", $"teardown: {entry.Ref}");
        }

        foreach (JudgedClaim claim in report.Claims)
        {
            AddTold(claim.Evidence, claim.Port, $"evidence for \"{claim.Text}\"");
        }

        foreach (PassThrough through in report.PassThrough)
        {
            AddThrough(through);
        }

        foreach (Finding finding in report.Findings)
        {
            AddTold($"{finding.Detail} {finding.Observed}", finding.Port, $"finding {finding.Rule}");
        }

        foreach (NeighbourChange change in report.NeighbourChanges.Where(static change => change.Interruption is { HasEndUs: true }))
        {
            decimal seconds = (change.Interruption.EndUs - change.Interruption.StartUs) / 1_000_000m;
            Add(ArticleDimension.Time, seconds, seconds, change.Port, "", RecordKind.Measured, $"{change.File}, interruption at {change.Event} {change.Neighbour}");
        }
    }

    // Ports are several there, and the article says which one it means.
    private void AddThrough(PassThrough through)
    {
        string where = $"measured while {string.Join('+', through.Inputs)} took and {string.Join('+', through.Outputs)} gave";
        foreach (long milliwatts in (long[])[through.InMw, through.OutMw, through.IntoPackMw])
        {
            Add(ArticleDimension.Power, milliwatts / 1000m, milliwatts / 1000m, "", "", RecordKind.Measured, where, isTogether: true);
        }

        foreach (OutputWithoutInput left in through.WithoutInput)
        {
            (decimal volts, decimal amperes) = (left.MeasuredMv / 1000m, left.MeasuredMa / 1000m);
            Add(ArticleDimension.Voltage, volts, volts, left.Port, "", RecordKind.Measured, $"{where}, the input unplugged");
            Add(ArticleDimension.Current, amperes, amperes, left.Port, "", RecordKind.Measured, $"{where}, the input unplugged");
            Add(ArticleDimension.Power, volts * amperes, volts * amperes, left.Port, "", RecordKind.Measured, $"{where}, the input unplugged");
        }
    }

    private void AddTold(string words, string port, string where)
    {
        foreach (ArticleAmount amount in new ArticleReader(words).Amounts)
        {
            Add(amount.Unit.Dimension, amount.Value - amount.Slack, amount.Value + amount.Slack, port, "", RecordKind.Told, where);
        }
    }

    private void AddPrinted(string port, PrintedFixed mode, string name, bool isTogether) => AddMode(
        port, mode.CurrentMa, mode.HasPowerMw ? mode.PowerMw : null, mode.VoltageMv, RecordKind.Printed, $"{name}, line {Amounts.Number(mode.Line)}", isTogether);

    private void AddRange(int leastMv, int mostMv, string port, RecordKind kind, string where)
    {
        Add(ArticleDimension.Voltage, leastMv / 1000m, leastMv / 1000m, port, "", kind, where);
        Add(ArticleDimension.Voltage, mostMv / 1000m, mostMv / 1000m, port, "", kind, where);
    }

    private void AddMode(string port, int? milliamperes, int? milliwatts, int? millivolts, RecordKind kind, string where, bool isTogether = false)
    {
        if (millivolts is { } volts)
        {
            Add(ArticleDimension.Voltage, volts / 1000m, volts / 1000m, port, "", kind, where, isTogether);
        }

        if (milliamperes is { } amperes)
        {
            Add(ArticleDimension.Current, amperes / 1000m, amperes / 1000m, port, "", kind, where, isTogether);
        }

        if ((milliwatts ?? (int?)Amounts.Milliwatts(millivolts, milliamperes)) is { } watts)
        {
            AddPower(port, watts, kind, where, isTogether);
        }
    }

    private void AddPower(string port, int milliwatts, RecordKind kind, string where, bool isTogether = false, bool isMaximum = false) =>
        Add(ArticleDimension.Power, milliwatts / 1000m, milliwatts / 1000m, port, "", kind, where, isTogether, isMaximum);

    private void Add(ArticleDimension dimension, bool isPrinted, long thousandths, string topic, string where)
    {
        if (isPrinted)
        {
            Add(dimension, thousandths / 1000m, thousandths / 1000m, "", topic, RecordKind.Printed, where);
        }
    }

    private void Add(
        ArticleDimension dimension, decimal least, decimal most, string port, string topic, RecordKind kind, string where, bool isTogether = false, bool isMaximum = false)
    {
        if (port.Length > 0)
        {
            _ports.Add(port);
        }

        _all.Add(new RecordedAmount(dimension, least, most, port, topic, kind, where) { IsTogether = isTogether, IsMaximum = isMaximum });
    }
}
