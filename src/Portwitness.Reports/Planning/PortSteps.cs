using System.Globalization;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Planning;

/// <summary>Each port alone: what it offers or answers to, and its printed modes under load.</summary>
internal sealed class PortSteps(ProductReport report, StepList steps)
{
    // A current above 3 A asks for a cable that says so, more than 20 V or 100 W for one of EPR (USB Type-C R2.4, 4.5; R3.2v1.1, 5.2.1).
    private const int PlainCableMilliamperes = 3_000;
    private const int MostSprMillivolts = 21_000;
    private const int MostSprMilliwatts = 100_000;

    // "about as much as is printed": what a load is set to is rounded (common practice, no source).
    private const int LeastShareOfCurrentPpm = 950_000;

    // A load that is held for less says nothing of one that lasts.
    private const long LeastLoadUs = 10_000_000;

    /// <summary>Adds what each port offers.</summary>
    public void AddCaptures(PrintedOutput output)
    {
        bool isCapturable = MayHaveConfigurationChannel(output.Port);
        PortInArrangement[] alone = [.. report.Arrangements.Where(row => SamePort(row.Port, output.Port) && row.InUse.Count <= 1)];
        if (isCapturable)
        {
            steps.Add(
                "capture", [output.Port], $"Plug into {output.Port} alone with a device that agrees on something, and keep the list that it offers{Cable(output)}.",
                alone.Length > 0 ? StepList.Done : StepList.Open, StepList.Files(alone.Select(static row => row.File)), StepList.CaptureUs, output.Line);
        }

        PortSignalling? signalling = report.Signalling.FirstOrDefault(one => SamePort(one.Port, output.Port));
        bool hasProtocols = output.Fixed.Any(static mode => mode.Protocol.Length > 0) || output.ProtocolMaxima.Count > 0;
        if (!isCapturable || hasProtocols)
        {
            steps.Add(
                "signalling", [output.Port], $"Note what {output.Port} answers to besides USB PD (\"signalling:\"){Protocols(output)}.",
                signalling is { Words.Count: > 0 } ? StepList.Done : StepList.Open, StepList.Files(signalling?.From ?? []), StepList.CaptureUs, output.Line);
        }
    }

    /// <summary>Adds its printed modes under load.</summary>
    public void AddLoads(PrintedOutput output)
    {
        (int VoltageMv, int CurrentMa)[] modes =
        [
            .. output.Fixed.Select(static mode => (mode.VoltageMv, mode.CurrentMa)).Concat(output.Ranges.SelectMany(range => Ends(output, range))).Distinct(),
        ];
        if (modes.Length == 0)
        {
            return;
        }

        (int VoltageMv, int CurrentMa)[] open = [.. modes.Where(mode => !LoadsOf(output.Port, mode).Any())];
        string all = string.Join(", ", modes.Select(Mode));
        string missing = open.Length == 0 || open.Length == modes.Length ? "" : $"; missing {string.Join(", ", open.Select(Mode))}";
        steps.Add(
            "load", [output.Port], $"Load {output.Port} alone for ten minutes each with {all}, measured at its connector.", StepList.StateOf(modes.Length - open.Length, modes.Length),
            StepList.Files(modes.SelectMany(mode => LoadsOf(output.Port, mode))) + missing, StepList.LoadUs * modes.Length, output.Line);
    }

    private static string Mode((int VoltageMv, int CurrentMa) mode) => $"{Amounts.Volts(mode.VoltageMv)} {Amounts.Amperes(mode.CurrentMa)}";

    // Both ends of a range; at the upper one no more than the port's printed power.
    private static IEnumerable<(int VoltageMv, int CurrentMa)> Ends(PrintedOutput output, PrintedRange range)
    {
        yield return (range.MinVoltageMv, range.CurrentMa);
        int most = range.HasPowerMw ? range.PowerMw : output.HasMaxPowerMw ? output.MaxPowerMw : int.MaxValue;
        yield return (range.MaxVoltageMv, (int)Math.Min(range.CurrentMa, most * 1_000L / Math.Max(1, range.MaxVoltageMv)));
    }

    /// <summary>Whether two names are of one port; a report names ports as the label does.</summary>
    public static bool SamePort(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);

    /// <summary>Whether a port may have a CC line: Standard-A, Standard-B and Micro have none (USB Type-C R2.4, 4.5).</summary>
    public static bool MayHaveConfigurationChannel(string port) =>
        !(port is ['A' or 'B', ..] && port.AsSpan(1).TrimEnd("0123456789").IsEmpty) && !port.StartsWith("USB", StringComparison.OrdinalIgnoreCase)
            && !port.StartsWith("Micro", StringComparison.OrdinalIgnoreCase) && !port.StartsWith("DC", StringComparison.OrdinalIgnoreCase);

    // The files that show a mode under load: loads, and contracts of captures that measured the current.
    private IEnumerable<string> LoadsOf(string port, (int VoltageMv, int CurrentMa) mode) =>
        report.Loads.Where(load => SamePort(load.Port, port) && load.InUse.All(used => SamePort(used, port)) && load.AtMv == mode.VoltageMv
                && (!load.HasForUs || load.ForUs >= LeastLoadUs) && load.MeasuredUa >= (long)mode.CurrentMa * LeastShareOfCurrentPpm / 1000).Select(static load => load.File)
            .Concat(report.Ports.SelectMany(static one => one.Arrangements).Where(piece => SamePort(piece.LabelPort, port) && piece.InUse.Count <= 1
                && piece.Contracts.Any(contract => contract.HasVoltageMv && contract.VoltageMv == mode.VoltageMv && contract.Measured is { HasMostCurrentMa: true }
                    && contract.Measured.MostCurrentMa >= (long)mode.CurrentMa * LeastShareOfCurrentPpm / 1_000_000)).Select(static piece => piece.File));

    private static string Cable(PrintedOutput output)
    {
        bool isEpr = output.Fixed.Any(static mode => mode.VoltageMv > MostSprMillivolts) || output.Ranges.Any(static range => range.MaxVoltageMv > MostSprMillivolts)
            || output.MaxPowerMw > MostSprMilliwatts;
        bool isFiveAmpere = output.Fixed.Any(static mode => mode.CurrentMa > PlainCableMilliamperes) || output.Ranges.Any(static range => range.CurrentMa > PlainCableMilliamperes);
        return output.CaptiveCable ? "" : isEpr ? ", with a cable for EPR (240 W)" : isFiveAmpere ? ", with a cable for 5 A" : "";
    }

    private static string Protocols(PrintedOutput output)
    {
        string[] named = [.. output.Fixed.Select(static mode => mode.Protocol).Concat(output.ProtocolMaxima.Select(static one => one.Protocol)).Where(static name => name.Length > 0).Distinct()];
        return named.Length == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"; {string.Join(", ", named)} is printed");
    }
}
