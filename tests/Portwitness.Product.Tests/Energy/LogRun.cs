using System.Globalization;
using System.Text;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Energy;

namespace Portwitness.Product.Tests.Energy;

/// <summary>Logs for tests, and what is learned of them.</summary>
internal static class LogRun
{
    /// <summary>A discharge at 5 V 2 A, measured at the port by a meter without error.</summary>
    public static ProductLog Discharge { get; } = new("log.csv", "C1")
    {
        AtVoltage = Voltage.FromMillivolts(5_000),
        AtCurrent = Current.FromMilliamperes(2_000),
        Accuracy = new MeasuringAccuracy(0, 0, 0, 0),
        MeasuredAt = MeasuringPoint.Source,
    };

    /// <summary>What is learned of rows of seconds, volts and amps.</summary>
    public static MeasuredLog Of(IEnumerable<(double Seconds, double Volts, double Amps)> rows, ProductLog? log = null) => OfText(Csv(rows), log);

    public static MeasuredLog OfText(string text, ProductLog? log = null)
    {
        using LogIntake intake = new(log ?? Discharge);
        intake.Write(Encoding.UTF8.GetBytes(text));
        return intake.Complete();
    }

    public static string Csv(IEnumerable<(double Seconds, double Volts, double Amps)> rows) =>
        "time (s),volts,amps\n" + string.Concat(rows.Select(static row =>
            string.Create(CultureInfo.InvariantCulture, $"{row.Seconds:0.######},{row.Volts:0.######},{row.Amps:0.######}\n")));

    /// <summary>Rows at equal steps.</summary>
    public static IEnumerable<(double Seconds, double Volts, double Amps)> Rows(
        double seconds, double step, Func<double, double> volts, Func<double, double> amps, double from = 0)
    {
        int count = (int)Math.Round(seconds / step);
        for (int row = 0; row <= count; row++)
        {
            yield return (from + (row * step), volts(row * step), amps(row * step));
        }
    }

    /// <summary>Rows of one voltage and current.</summary>
    public static IEnumerable<(double Seconds, double Volts, double Amps)> Steady(
        double seconds, double volts, double amps, double from = 0, double step = 1) => Rows(seconds, step, _ => volts, _ => amps, from);
}
