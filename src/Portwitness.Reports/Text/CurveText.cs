using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>
/// Power against voltage at the voltages that tell most: the ends of both curves, the nominal voltages of USB PD between them, and
/// where the source's whole current ends.
/// </summary>
internal static class CurveText
{
    private static readonly int[] NominalMillivolts = [5_000, 9_000, 15_000, 20_000, 28_000, 36_000, 48_000];

    public static void Write(TextWriter writer, SupplyCurve curve, IReadOnlyList<CurvePart> device, string indent)
    {
        string limit = curve.HasPowerLimitMw ? $", if the source holds to its {Amounts.Watts(curve.PowerLimitMw)} as it says that it may" : "";
        writer.WriteLine($"{indent}power against voltage, object {curve.ObjectPosition}{limit}");
        TextTable table = new();
        table.Add("voltage", "offered", "", "usable", "");
        foreach (int voltage in Voltages(curve, device))
        {
            (string offeredCurrent, string offeredPower) = At(curve.Parts, voltage);
            (string usableCurrent, string usablePower) = At(device, voltage);
            table.Add(Amounts.Volts(voltage), offeredCurrent, offeredPower, usableCurrent, usablePower);
        }

        table.Write(writer, indent + "  ");
    }

    private static IEnumerable<int> Voltages(SupplyCurve curve, IReadOnlyList<CurvePart> device)
    {
        int low = curve.Parts.Min(static part => part.FromMv);
        int high = curve.Parts.Max(static part => part.ToMv);
        return NominalMillivolts
            .Append(low).Append(high).Append(curve.Parts[0].ToMv)
            .Append(device.Min(static part => part.FromMv)).Append(device.Max(static part => part.ToMv))
            .Where(voltage => low <= voltage && voltage <= high).Distinct().Order();
    }

    // Parts lie on the steps that can be asked for, and so do the voltages above.
    private static (string Current, string Power) At(IReadOnlyList<CurvePart> parts, int voltage)
    {
        CurvePart? part = parts.Where(one => one.FromMv <= voltage && voltage <= one.ToMv).MaxBy(static one => one.CurrentMa);
        return part is null ? ("-", "-") : (Amounts.Amperes(part.CurrentMa), Amounts.Watts(Amounts.Milliwatts(voltage, part.CurrentMa)));
    }
}
