using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Proofing;

/// <summary>What was captured and measured.</summary>
/// <param name="list">Where the amounts go.</param>
internal sealed class MeasuredAmounts(AmountList list)
{
    /// <summary>Adds what a port offered under an arrangement, and what was measured of it.</summary>
    public void Add(string port, ArrangementReport arrangement)
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
                list.AddPower(port, offered.PdpMw, RecordKind.Offered, where, isTogether, isMaximum: true);
            }
        }

        foreach (Contract contract in arrangement.Contracts)
        {
            list.AddMode(
                port, contract.HasCurrentMa ? contract.CurrentMa : null, contract.HasPowerMw ? contract.PowerMw : null,
                contract.HasVoltageMv ? contract.VoltageMv : null, RecordKind.Offered, where, isTogether);
            if (contract.Measured is { } measured)
            {
                list.Add(ArticleDimension.Voltage, measured.LeastMv / 1000m, measured.MostMv / 1000m, port, "", RecordKind.Measured, where, isTogether);
                if (measured.HasMostCurrentMa)
                {
                    decimal amperes = measured.MostCurrentMa / 1000m;
                    list.Add(ArticleDimension.Current, amperes, amperes, port, "", RecordKind.Measured, where, isTogether);
                    list.Add(ArticleDimension.Power, measured.LeastMv * amperes / 1000m, measured.MostMv * amperes / 1000m, port, "", RecordKind.Measured, where, isTogether);
                }
            }
        }
    }

    /// <summary>Adds a log of power.</summary>
    public void Add(PowerLog log)
    {
        string where = $"{log.File}{(log.At.Length > 0 ? $", {log.Kind} at {log.At}" : "")}";
        AddMeasured(ArticleDimension.Charge, log.ChargeUah, log.Kind == "charge" ? "" : "rated-capacity", log.Port, where);
        AddMeasured(ArticleDimension.Energy, log.EnergyUwh, log.Kind == "charge" ? "" : "energy", log.Port, where);
        if (log is { HasMeanUv: true, HasMeanUa: true })
        {
            decimal volts = Math.Abs(log.MeanUv) / 1_000_000m;
            decimal amperes = Math.Abs(log.MeanUa) / 1_000_000m;
            list.Add(ArticleDimension.Voltage, volts, volts, log.Port, "", RecordKind.Measured, where);
            list.Add(ArticleDimension.Current, amperes, amperes, log.Port, "", RecordKind.Measured, where);
            list.Add(ArticleDimension.Power, volts * amperes, volts * amperes, log.Port, "", RecordKind.Measured, where);
        }

        list.Add(ArticleDimension.Time, log.LoadUs / 1_000_000m, log.LoadUs / 1_000_000m, log.Port, "", RecordKind.Measured, where);
        if (log.HasEfficiencyPpm)
        {
            list.Add(ArticleDimension.Ratio, log.EfficiencyPpm / 1_000_000m, log.EfficiencyPpm / 1_000_000m, log.Port, "efficiency", RecordKind.Measured, where);
        }
    }

    /// <summary>Adds a load that was held.</summary>
    public void Add(SoakResult soak)
    {
        string where = $"{soak.File}, held at {soak.At}";
        foreach (long milliwatts in soak.AtMarksMw.Append(soak.FirstMw).Concat(soak.HasSteadyMw ? [soak.SteadyMw] : []))
        {
            list.Add(ArticleDimension.Power, milliwatts / 1000m, milliwatts / 1000m, soak.Port, "", RecordKind.Measured, where);
        }

        foreach (long time in (long[])[soak.ForUs, .. soak.HasFellAtUs ? [soak.FellAtUs] : Array.Empty<long>()])
        {
            list.Add(ArticleDimension.Time, time / 1_000_000m, time / 1_000_000m, soak.Port, "", RecordKind.Measured, where);
        }

        list.Add(ArticleDimension.Energy, soak.EnergyUwh / 1_000_000m, soak.EnergyUwh / 1_000_000m, soak.Port, "", RecordKind.Measured, where);
    }

    /// <summary>Adds measured points of a mains supply.</summary>
    public void Add(AdapterResult adapter)
    {
        decimal open = adapter.UncertaintyPpm / 1_000_000m;
        decimal value = adapter.AverageEfficiencyPpm / 1_000_000m;
        list.Add(ArticleDimension.Ratio, value - open, value + open, "", "efficiency", RecordKind.Measured, $"average efficiency at {Amounts.Volts(adapter.OutputMv)}");
    }

    /// <summary>Adds what was read while power passed through; ports are several there, and the article says which one it means.</summary>
    public void Add(PassThrough through)
    {
        string where = $"measured while {string.Join('+', through.Inputs)} took and {string.Join('+', through.Outputs)} gave";
        foreach (long milliwatts in (long[])[through.InMw, through.OutMw, through.IntoPackMw])
        {
            list.Add(ArticleDimension.Power, milliwatts / 1000m, milliwatts / 1000m, "", "", RecordKind.Measured, where, isTogether: true);
        }

        foreach (OutputWithoutInput left in through.WithoutInput)
        {
            (decimal volts, decimal amperes) = (left.MeasuredMv / 1000m, left.MeasuredMa / 1000m);
            list.Add(ArticleDimension.Voltage, volts, volts, left.Port, "", RecordKind.Measured, $"{where}, the input unplugged");
            list.Add(ArticleDimension.Current, amperes, amperes, left.Port, "", RecordKind.Measured, $"{where}, the input unplugged");
            list.Add(ArticleDimension.Power, volts * amperes, volts * amperes, left.Port, "", RecordKind.Measured, $"{where}, the input unplugged");
        }
    }

    /// <summary>Adds how long a neighbour interrupted a port.</summary>
    public void Add(NeighbourChange change)
    {
        decimal seconds = (change.Interruption.EndUs - change.Interruption.StartUs) / 1_000_000m;
        list.Add(ArticleDimension.Time, seconds, seconds, change.Port, "", RecordKind.Measured, $"{change.File}, interruption at {change.Event} {change.Neighbour}");
    }

    private void AddObject(string port, PowerObject one, string where, bool isTogether)
    {
        IReadOnlyList<ArticleAmount> amounts = new ArticleReader(string.Join(", ", PowerObjectRow.Of(one)[2..6])).Amounts;
        foreach (ArticleAmount amount in amounts)
        {
            list.Add(amount.Unit.Dimension, amount.Value, amount.Value, port, "", RecordKind.Offered, where, isTogether);
        }

        if (amounts is [{ Unit.Dimension: ArticleDimension.Voltage } volts, { Unit.Dimension: ArticleDimension.Current } amperes])
        {
            list.Add(ArticleDimension.Power, volts.Value * amperes.Value, volts.Value * amperes.Value, port, "", RecordKind.Offered, where, isTogether);
        }
    }

    private void AddMeasured(ArticleDimension dimension, MeasuredAmount? amount, string topic, string port, string where)
    {
        if (amount is not null)
        {
            decimal least = Math.Min(Math.Abs(amount.Least), Math.Abs(amount.Value)) / 1_000_000m;
            decimal most = Math.Max(Math.Abs(amount.HasMost ? amount.Most : amount.Value), Math.Abs(amount.Value)) / 1_000_000m;
            list.Add(dimension, least, most, port, topic, RecordKind.Measured, where);
        }
    }
}
