using System.Globalization;
using System.Text;
using Portwitness.Analysis.Evidence;

namespace Portwitness.Product.Tests.Energy;

/// <summary>
/// What is printed of a battery is a statement with a verdict. 1 Ah is 1 A for 3600 s; GB/T 35590 for the rated capacity (second-hand); three
/// and ten per cent, and the usual efficiency, are common practice (no source).
/// </summary>
public class BatteryStatementTests
{
    private const string Pack = "label: |\n  Battery: 10000mAh 3.7V 37Wh\n  Rated capacity: 6000mAh (5V⎓2A)\n  USB-C Input: 5V⎓2A\n  USB-C Output: 5V⎓3A\n";
    private const string Exact = "accuracy: {volts: 0.1%, amps: 0.2%}, measured_at: source, longest_step: 1h";

    [Fact]
    public void Battery_WithoutEvidence_CannotBeToldAndSaysHow()
    {
        ProductAnalysis analysis = ProductRun.Typed(Pack);

        Verdicts(analysis).Should().Equal(
            "1 the cells hold 10000 mAh at 3.7 V: CannotTell", "1 the cells hold 37 Wh: CannotTell", "2 6000 mAh come out at 5 V 2 A: CannotTell",
            "3 C takes 5 V 2 A: CannotTell", "4 C gives 5 V 3 A: CannotTell");
        analysis.Statements.Should().OnlyContain(static one => !one.NextStep.IsEmpty);
    }

    [Theory]
    [InlineData(6100, "at: 5V 2A", "Holds")]
    [InlineData(5000, "at: 5V 2A", "Fails")]
    [InlineData(6000, "at: 5V 2A", "Holds")] // by simple acceptance
    [InlineData(5990, "at: 5V 2A", "CannotTell")]
    [InlineData(6100, "at: 5V 1A", "CannotTell")]
    [InlineData(6100, "at: 9V 2A", "CannotTell")]
    public void RatedCapacity_IsHeldAgainstADischarge(int milliampereHours, string at, string verdict) =>
        Verdicts(Logged($"{at}, cut_off: 4.5V", Discharge(milliampereHours))).Should().Contain($"2 6000 mAh come out at 5 V 2 A: {verdict}");

    // Two cells of 5000 mAh 3.7 V hold 37 Wh; 4800 mAh are 4 % less, of which half a watt-hour is rounding; 4000 mAh are 20 % less.
    [Theory]
    [InlineData(5000, "Holds", "Holds")]
    [InlineData(4800, "CannotTell", "Holds")]
    [InlineData(4700, "CannotTell", "CannotTell")]
    [InlineData(4000, "Fails", "Fails")]
    public void Cells_AreHeldAgainstWhatIsStated(int capacity, string verdict, string ofEnergy) =>
        Verdicts(ProductRun.Typed($"{Pack}battery: {{cells: {{series: 1, parallel: 2, capacity_mah: {capacity}, nominal_v: 3.7}}}}\n"))
            .Take(2).Should().Equal($"1 the cells hold 10000 mAh at 3.7 V: {verdict}", $"1 the cells hold 37 Wh: {ofEnergy}");

    // 6400 mAh at 5 V are 32 Wh, 86 % of 37 Wh; 5000 mAh are 25 Wh, 68 %.
    [Theory]
    [InlineData(6400, "Holds")]
    [InlineData(5000, "CannotTell")]
    public void Energy_IsHeldAgainstAWholeDischarge(int milliampereHours, string verdict) =>
        Verdicts(Logged("at: 5V 2A, cut_off: 4.5V", Discharge(milliampereHours))).Should().Contain($"1 the cells hold 37 Wh: {verdict}");

    // 2 A ± 0.2 % is 1.996 A to 2.004 A.
    [Theory]
    [InlineData("1.9", "5V 2A", "Holds", false)]
    [InlineData("2.003", "5V 2A", "CannotTell", false)]
    [InlineData("2.1", "5V 2A", "Fails", true)]
    [InlineData("2.1", "9V 2A", "CannotTell", false)]
    public void Input_IsHeldAgainstACharge(string amperes, string at, string verdict, bool isFound)
    {
        ProductAnalysis analysis = Logged($"at: {at}, kind: charge", $"time (s),volts,amps\n0,5,{amperes}\n3600,5,{amperes}\n");

        Verdicts(analysis).Should().Contain($"3 C takes 5 V 2 A: {verdict}");
        analysis.Findings.Any(static finding => finding.Rule == "sink-current-exceeds-printed" && finding.Severity == Severity.Mismatch).Should().Be(isFound);
    }

    // A pack for vehicles of 12 V and 24 V; five per cent about a nominal voltage are common practice (no source). 2 A ± 0.2 % is at least 1.996 A.
    [Theory]
    [InlineData("12-24V⎓2A", "12V 1.9, 24V 1", "Holds", "")]
    [InlineData("12-24V⎓2A", "12.5V 1.9, 24V 1", "Holds", "")]
    [InlineData("12-24V⎓2A", "12V 1.9", "CannotTell", "at 24 V")]
    [InlineData("12-24V⎓2A", "13.8V 1.9", "CannotTell", "at 12 V and at 24 V")]
    [InlineData("12-24V⎓2A", "13.8V 2.1", "Fails", "")]
    [InlineData("12-24V⎓2A", "12V 2.003, 24V 1", "CannotTell", "more exact meter")]
    [InlineData("12-24V⎓2A", "5V 2.1", "CannotTell", "at each end")]
    [InlineData("12-24V⎓2A", "12V 0, 24V 1", "CannotTell", "at 12 V")]
    [InlineData("12-24V", "12V 3, 24V 1.5", "Holds", "")]
    [InlineData("12-24V", "12V 3", "CannotTell", "at 24 V")]
    public void InputOfARange_IsHeldAgainstChargesAtItsEnds(string printed, string charges, string verdict, string next)
    {
        string[] all = charges.Split(", ");
        string logs = string.Concat(all.Select(static (one, at) => $"  - {{file: log{at}.csv, port: DC, kind: charge, at: {one.Split(' ')[0]}, {Exact}}}\n"));
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml", $"label: |\n  Battery: 10000mAh 3.7V 37Wh\n  DC Input: {printed}\n  USB-C Output: 5V⎓3A\ndischarges:\n{logs}", null);
        foreach (string[] one in all.Select(static one => one.Split("V ")))
        {
            check.OpenLog().Write(Encoding.UTF8.GetBytes($"time (s),volts,amps\n0,{one[0]},{one[1]}\n3600,{one[0]},{one[1]}\n"));
            check.CloseLog();
        }

        ProductAnalysis analysis = check.Complete();

        Statement input = analysis.Statements.Should().ContainSingle(static one => one.At.Line == 2).Subject;
        (input.Verdict.ToString(), input.NextStep.ToString().Contains(next, StringComparison.Ordinal)).Should().Be((verdict, true));
        analysis.Findings.Any(static finding => finding.Rule == "sink-current-exceeds-printed" && finding.Severity == Severity.Mismatch).Should().Be(verdict == "Fails");
    }

    private static IEnumerable<string> Verdicts(ProductAnalysis analysis) =>
        analysis.Statements.Select(static one => $"{one.At.Line} {one.Claim}: {one.Verdict}");

    private static string Discharge(int milliampereHours)
    {
        StringBuilder rows = new("time (s),volts,amps\n");
        int seconds = milliampereHours * 9 / 5;
        for (int at = 0; at < seconds; at += 1800)
        {
            rows.Append(CultureInfo.InvariantCulture, $"{at},5,2\n");
        }

        return rows.Append(CultureInfo.InvariantCulture, $"{seconds},5,2\n{seconds + 1},4.4,2\n{seconds + 11},4.4,2\n").ToString();
    }

    private static ProductAnalysis Logged(string members, string log)
    {
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml", $"{Pack}discharges:\n  - {{port: C, file: log.csv, {members}, {Exact}}}\n", null);
        check.OpenLog().Write(Encoding.UTF8.GetBytes(log));
        check.CloseLog();
        return check.Complete();
    }
}
