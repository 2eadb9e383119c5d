using System.Text;
using Portwitness.Analysis.Evidence;

namespace Portwitness.Product.Tests;

/// <summary>
/// What a laptop does not show is no evidence. Its kernel may leave SPR AVS out of a list (the kernel's
/// drivers/usb/typec/pd.c before October 2025), and nothing else of an SPR list.
/// </summary>
public class UnshownObjectTests
{
    // 5 V 3 A, 9 V 3 A, 15 V 3 A, 20 V 3 A; then what the case adds.
    private static readonly string[] Fixed = ["1:5000", "2:9000", "3:15000", "4:20000"];

    private const string Pps = "source-capabilities/{0}:programmable_supply/minimum_voltage:5000mV\n"
        + "source-capabilities/{0}:programmable_supply/maximum_voltage:21000mV\n"
        + "source-capabilities/{0}:programmable_supply/maximum_current:3000mA\n";

    private const string Avs = "source-capabilities/{0}:spr_adjustable_voltage_supply/maximum_current_9V_to_15V:3000mA\n"
        + "source-capabilities/{0}:spr_adjustable_voltage_supply/maximum_current_15V_to_20V:3000mA\n";

    [Fact]
    public void PrintedAvsOfAKernelWithoutIt_CannotBeTold()
    {
        Check("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3A AVS 9-20V⎓3A", List()).Verdict.Should().Be(Verdict.CannotTell);
        Check("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3A AVS 9-20V⎓3A", List(avs: 5)).Verdict.Should().Be(Verdict.Holds);
    }

    [Theory]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 12V⎓3A 15V⎓3A 20V⎓3A")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3A PPS 3.3-21V⎓3A")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3A (100W Max)")]
    public void PrintedFixedSupplyPpsAndPower_AreStillHeldAgainstAListWithAnOpenEnd(string label)
    {
        // The edition: R3.2 has no 12 V, so that another protocol may be meant.
        ProductAnalysis analysis = Check(label, List() + "port0-partner/usb_power_delivery_revision:2.0\n", cable: true);

        analysis.Verdict.Should().Be(Verdict.Fails);
    }

    [Theory]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 12V⎓3A 15V⎓3A 20V⎓3A")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3A AVS 9-20V⎓3A")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3A PPS 3.3-5.9V⎓3A")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3A (100W Max)")]
    public void WhatMayStandAtAPositionThatWasNotShown_CannotBeTold(string label)
    {
        string list = List(pps: 6) + "port0-partner/usb_power_delivery_revision:2.0\n";

        Check(label, list, cable: true).Verdict.Should().Be(Verdict.CannotTell);
    }

    [Theory]
    [InlineData("voltage:9025mV")]
    [InlineData("voltage:9000")]
    [InlineData("maximum_current:3 A")]
    public void FixedSupplyOfWhichAValueIsUnknown_AccusesNobody(string attribute)
    {
        string name = attribute.Split(':')[0];
        string list = string.Join('\n', List().Split('\n').Select(
            line => line.StartsWith($"source-capabilities/2:fixed_supply/{name}:", StringComparison.Ordinal)
                ? $"source-capabilities/2:fixed_supply/{attribute}" : line));

        ProductAnalysis analysis = Check("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3A (60W Max)", list);

        analysis.Verdict.Should().Be(Verdict.CannotTell);
        analysis.Captures.SelectMany(capture => capture.Findings).Concat(analysis.Findings)
            .Should().NotContain(finding => finding.Severity == Severity.Violation || finding.Severity == Severity.Mismatch);
    }

    private static string List(int avs = 0, int pps = 0)
    {
        StringBuilder text = new();
        foreach (string[] part in Fixed.Select(entry => entry.Split(':')))
        {
            text.Append($"source-capabilities/{part[0]}:fixed_supply/voltage:{part[1]}mV\n");
            text.Append($"source-capabilities/{part[0]}:fixed_supply/maximum_current:3000mA\n");
        }

        text.Append(avs == 0 ? "" : Avs.Replace("{0}", $"{avs}", StringComparison.Ordinal));
        text.Append(pps == 0 ? "" : Pps.Replace("{0}", $"{pps}", StringComparison.Ordinal));
        return text.ToString();
    }

    private static ProductAnalysis Check(string label, string capture, bool cable = false)
    {
        ProductCheck check = cable
            ? ProductCheck.ForProduct(
                "product.yaml",
                $"product: Tarnholt TH-60\nlabel: \"{label}\"\nports:\n  USB-C: {{cable: captive}}\n"
                    + "captures:\n  - {file: c1, port: USB-C, in_use: [USB-C]}\n",
                null)
            : ProductCheck.ForCapture("c1", label, null, null);
        check.Open(check.Files[0]).Write(Encoding.UTF8.GetBytes(capture));
        check.Close();
        return check.Complete();
    }
}
