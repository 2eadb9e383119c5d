using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Planning;

/// <summary>What a pack takes and holds: charges at each printed input, a discharge at the rated condition, how long it holds its power.</summary>
internal sealed class PackSteps(ProductReport report, StepList steps)
{
    // Usual losses and end phase of a charge, and the loss of a discharge (common practice, no source).
    private const decimal SlowCharge = 1.47m / 0.88m;
    private const decimal Given = 0.88m;

    private static readonly long SustainUs = StepList.Hour;

    /// <summary>Adds a step for each printed input that charges the pack.</summary>
    public void AddCharges(Label label, long? milliwattHours)
    {
        foreach (PrintedInput input in label.Inputs.Where(static input => !input.Alternating && input.HasCurrentMa && input.HasMaxVoltageMv)
            .OrderByDescending(static input => (long)input.MaxVoltageMv * input.CurrentMa).DistinctBy(static input => (input.Port, input.MaxVoltageMv, input.CurrentMa)))
        {
            string setting = $"{Amounts.Volts(input.MaxVoltageMv)} {Amounts.Amperes(input.CurrentMa)}";
            PowerLog[] logs = [.. report.PowerLogs.Where(log => log.Kind == "charge" && (log.At.Length == 0 || log.At.StartsWith(Amounts.Volts(input.MaxVoltageMv), StringComparison.Ordinal))
                && (log.Port.Length == 0 || input.Port.Length == 0 || PortSteps.SamePort(log.Port, input.Port)))];
            decimal watts = (long)input.MaxVoltageMv * input.CurrentMa / 1_000_000m;
            steps.Add(
                "charge", input.Port.Length > 0 ? [input.Port] : [], $"Log a charge from empty with {setting}{(input.Port.Length > 0 ? $" into {input.Port}" : "")}, to the end.",
                logs.Length > 0 ? StepList.Done : StepList.Open, StepList.Files(logs.Select(static log => log.File)), Hours(milliwattHours, watts, SlowCharge), input.Line);
        }
    }

    /// <summary>Adds the discharge that tells the rated capacity.</summary>
    public void AddDischarge(Label label, long? milliwattHours)
    {
        PrintedBattery? rated = Batteries(label).FirstOrDefault(static one => one.HasRatedCapacityMah);
        (string port, int millivolts, int milliamperes) = rated is { HasRatedVoltageMv: true, HasRatedCurrentMa: true } ? ("", rated.RatedVoltageMv, rated.RatedCurrentMa) : LargestMode(label);
        if (millivolts == 0)
        {
            return;
        }

        string setting = $"{Amounts.Volts(millivolts)} {Amounts.Amperes(milliamperes)}";
        PowerLog[] whole = [.. report.PowerLogs.Where(log => log.Kind == "discharge" && log.End is "cut-off" or "output off")];
        PowerLog[] same = [.. whole.Where(log => log.At.StartsWith(Amounts.Volts(millivolts), StringComparison.Ordinal))];
        string other = same.Length == 0 && whole.Length > 0 ? $"{StepList.Files(whole.Select(static log => log.File))}, at another voltage" : StepList.Files(same.Select(static log => log.File));
        string why = rated is null ? "no rated condition is printed; the largest printed mode" : "the rated condition";
        steps.Add(
            "discharge", port.Length > 0 ? [port] : [], $"Log a discharge from full until the output goes off, with {setting} ({why}).",
            same.Length > 0 ? StepList.Done : whole.Length > 0 ? StepList.Partly : StepList.Open, other,
            Hours(milliwattHours * (long)(Given * 100) / 100, (long)millivolts * milliamperes / 1_000_000m, 1), rated?.Line ?? Batteries(label).FirstOrDefault()?.Line);
    }

    /// <summary>Adds the hour at the largest printed power, with the temperature of the housing.</summary>
    public void AddSustain(Label label, bool isPack, long? milliwattHours)
    {
        (string port, int millivolts, int milliamperes) = LargestMode(label);
        if (millivolts == 0)
        {
            return;
        }

        decimal watts = (long)millivolts * milliamperes / 1_000_000m;
        long time = isPack && Hours(milliwattHours, watts, Given) is > 0 and var empty ? Math.Min(empty, SustainUs) : SustainUs;
        LoadedPort[] there = [.. report.Loads.Where(load => PortSteps.SamePort(load.Port, port) && load.AtMv == millivolts && load.HasForUs && load.ForUs >= time * 9 / 10)];
        PlanStep step = steps.Add(
            "sustain", [port], $"Hold {port} at {Amounts.Volts(millivolts)} {Amounts.Amperes(milliamperes)} for {(time < SustainUs ? "as long as it lasts" : "an hour")}, and log volts, amperes, the hottest place of the closed housing and the room.",
            there.Length > 0 ? StepList.Done : StepList.Open, StepList.Files(there.Select(static load => load.File)), time);
        step.NeedsClosed = true;
    }

    /// <summary>Every battery statement of a label.</summary>
    public static IEnumerable<PrintedBattery> Batteries(Label label) =>
        label.Battery is not { } battery ? [] : battery.Statements.Count > 0 ? battery.Statements : [battery];

    private static (string Port, int Millivolts, int Milliamperes) LargestMode(Label label) => label.Outputs.Where(static output => output.Alternating.Count == 0)
        .SelectMany(static output => output.Fixed.Select(mode => (output.Port, mode.VoltageMv, mode.CurrentMa))).OrderByDescending(static one => (long)one.VoltageMv * one.CurrentMa).FirstOrDefault() is { Port: not null } mode
            ? mode : ("", 0, 0);

    // Time for an energy at a power, in µs; 0 where one of them is not known.
    private static long Hours(long? milliwattHours, decimal watts, decimal factor) =>
        milliwattHours is { } energy && watts > 0 ? (long)Math.Min(1_000m * StepList.Hour, energy / 1000m / watts * factor * StepList.Hour) : 0;
}
