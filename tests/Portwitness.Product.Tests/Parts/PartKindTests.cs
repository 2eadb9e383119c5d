using System.Text;
using Portwitness.Analysis.Evidence;
using Portwitness.Product.Parts;

namespace Portwitness.Product.Tests.Parts;

/// <summary>Parts by kind on the nodes of a board: formulae of makers' notes (second-hand) and arithmetic.</summary>
public class PartKindTests
{
    // 5 V 3 A, 9 V 3 A, 15 V 3 A, 20 V 3.25 A; VBUS may go to 21.5 V for a moment (R3.2v1.1, Table 7.23).
    private const string Offers = "0x0801912C 0x0002D12C 0x0004B12C 0x00064145";

    [Theory]
    [InlineData("kind: tvs, node: C, standoff: 18V", "tvs-conducts-in-use", "fails: 18 V")]
    [InlineData("kind: tvs, node: C, standoff: 21V", "tvs-conducts-in-use", "cannot tell: 21 V")]
    [InlineData("kind: tvs, node: C, standoff: 21.5V", "tvs-conducts-in-use", "")]

    // 3.25 A squared times 50 mΩ: 0.528 W.
    [InlineData("kind: sense-resistor, node: C, milliohms: 50, watts: 0.5W", "sense-resistor-overloaded", "fails: 0.528 W")]
    [InlineData("kind: sense-resistor, node: C, milliohms: 50, watts: 0.53", "sense-resistor-overloaded", "")]
    [InlineData("kind: contacts, node: C, contacts: 2", "contacts-overloaded", "cannot tell: 1.625 A")]
    [InlineData("kind: contacts, node: C, contacts: 2, amps_per_contact: 1.25A", "contacts-overloaded", "fails: 1.625 A")]
    [InlineData("kind: contacts, node: C, contacts: 4", "contacts-overloaded", "")]

    // 750 mV at 3.25 A are 230.8 mΩ; at 5 A 150 mΩ.
    [InlineData("kind: cable, node: C, milliohms: 231", "cable-drop-too-large", "cannot tell: 751 mV")]
    [InlineData("kind: cable, node: C, milliohms: 230", "cable-drop-too-large", "")]
    [InlineData("kind: cable, node: C, amps: 5A, milliohms: 151", "cable-drop-too-large", "cannot tell: 755 mV")]
    [InlineData("kind: cable, node: C, amps: 5A, length_m: 3, awg: 20", "cable-drop-too-large", "cannot tell: 1000 mV")]
    [InlineData("kind: cable, node: C, amps: 5A, length_m: 1, awg: 20", "cable-drop-too-large", "")]

    // Boost from 6 V: 3.25 A x 20 / (6 x 0.9) = 12.037 A; the ripple of 4.7 µH at 400 kHz adds 2.330 A / 2.
    [InlineData("kind: inductor, node: C, saturates: 12A", "inductor-saturates", "cannot tell: 12.037 A")]
    [InlineData("kind: inductor, node: C, saturates: 12.1A", "inductor-saturates", "")]
    [InlineData("kind: inductor, node: C, saturates: 13A, microhenries: 4.7, kilohertz: 400", "inductor-saturates", "cannot tell: 13.202 A")]
    [InlineData("kind: mosfet, node: C, volts: 21V", "part-rating-exceeded", "fails: 21 V")]
    [InlineData("kind: mosfet, node: pack, volts: 8V", "part-rating-exceeded", "fails: 8 V")]
    [InlineData("kind: mosfet, node: pack, volts: 12V", "part-rating-exceeded", "")]

    // 3.25 A squared times 50 mΩ times 1.4: 0.739 W; two in parallel 0.185 W each.
    [InlineData("kind: mosfet, node: C, volts: 30V, milliohms: 50, watts: 0.7W", "switch-loss-too-large", "cannot tell: 0.739 W")]
    [InlineData("kind: mosfet, node: C, volts: 30V, milliohms: 50, watts: 0.74W", "switch-loss-too-large", "")]
    [InlineData("kind: mosfet, node: C, milliohms: 50, watts: 0.18W, parallel: 2", "switch-loss-too-large", "cannot tell: 0.184 W")]
    [InlineData("kind: switch, node: C, amps: 2A, parallel: 2", "part-rating-exceeded", "")]
    [InlineData("kind: switch, node: C, amps: 1.5A, parallel: 2", "part-rating-exceeded", "fails: 1.5 A")]

    // Boost from 6 V with 90 %: D = 0.73, 3.25 A x √(0.73 / 0.27) = 5.344 A.
    [InlineData("kind: capacitor, node: C, ripple: 5.3A", "capacitor-ripple-exceeded", "cannot tell: 5.344 A")]
    [InlineData("kind: capacitor, node: C, ripple: 5.4A", "capacitor-ripple-exceeded", "")]
    [InlineData("kind: capacitor, node: C, ripple: 2A, parallel: 2", "capacitor-ripple-exceeded", "cannot tell: 2.672 A")]

    // Buck to 5 V 3 A at the pack: 3 A x √(D (1 - D)) with D = 5 / (8.4 x 0.9) is 1.42 A.
    [InlineData("kind: capacitor, node: pack, ripple: 1.4A", "capacitor-ripple-exceeded", "cannot tell: 1.42 A")]
    [InlineData("kind: capacitor, node: pack, ripple: 1.5A", "capacitor-ripple-exceeded", "")]

    // 65 W of 6 V with 92 %: 11.775 A through the pack.
    [InlineData("kind: fuse, node: pack, amps: 10A", "part-rating-exceeded", "cannot tell: 10 A")]
    [InlineData("kind: fuse, node: pack, amps: 12A", "part-rating-exceeded", "")]
    [InlineData("kind: sense-resistor, node: pack, milliohms: 5, watts: 0.5W", "sense-resistor-overloaded", "cannot tell: 0.693 W")]
    [InlineData("kind: connector, node: C, contacts: 2, amps_per_contact: 1.25A", "contacts-overloaded", "fails: 1.625 A")]
    [InlineData("kind: ribbon, node: C, contacts: 8", "contacts-overloaded", "cannot tell: 0.407 A")]
    [InlineData("kind: ribbon, node: C, contacts: 9", "contacts-overloaded", "")]
    [InlineData("kind: ribbon, node: C, contacts: 4, amps_per_contact: 0.5A", "contacts-overloaded", "fails: 0.813 A")]

    // The bridge sees the larger of pack (8.4 V) and VBUS.
    [InlineData("kind: mosfet, node: bridge, volts: 20V", "part-rating-exceeded", "fails: 20 V")]
    public void Part_IsHeldAgainstItsNode(string part, string rule, string told) => Told(
        $"battery: {{cells: {{series: 2, capacity_mah: 5000, nominal_v: 3.6, full_v: 4.2, empty_v: 3.0}}}}\nparts: [{{part: X1, {part}}}]", rule)
        .Should().Equal(told.Length == 0 ? [] : [told]);

    [Fact]
    public void Clamp_IsHeldAgainstTheWeakestPartBesideIt() => Told(
        "parts: [{part: D1, kind: tvs, node: C, clamp: 38.9V}, {part: Q1, node: C, volts: 40V}, {part: Q2, node: C, volts: 30V}, {part: Q3, node: C2, volts: 25V}]",
        "tvs-clamps-too-late").Should().Equal("cannot tell: 38.9 V");

    // What is only printed is a promise: the port has to be captured.
    [Fact]
    public void NodeThatIsOnlyPrinted_CannotBeTold()
    {
        ProductAnalysis analysis = ProductRun.Typed("product: x\nlabel: \"USB-C1: 20V 3.25A\\nUSB-C2: 5V 3A\"\nparts: [{part: Q1, node: C1, volts: 16V}, {part: Q2, node: C2, volts: 16V}]\n");

        analysis.Findings.Where(static one => one.Rule == "part-rating-exceeded").Select(static one => $"{one.Verdict}: {one.Detail}").Should().Equal(
            "CannotTell: Q1 is rated for 16 V; 20 V is printed for C1: line 1 of the label.");
        analysis.Parts.Select(static one => one.Level.Basis).Should().AllBeEquivalentTo(NodeBasis.Printed);
    }

    // A port that takes 20 V brings them to its switch, whatever it gives.
    [Fact]
    public void PortThatIsAnInputToo_BringsItsVoltage() => Told("label: \"Input: USB-C: 28V 3A\\nOutput: USB-C: 20V 3.25A\"\nparts: [{part: Q1, node: C, volts: 25V}]", "part-rating-exceeded")
        .Should().Equal("cannot tell: 25 V");

    // A promise of more hides nothing that the port is known to offer.
    [Theory]
    [InlineData("18V", "fails: 18 V")]
    [InlineData("21.4V", "fails: 21.4 V")]
    [InlineData("22V", "cannot tell: 22 V")]
    [InlineData("30V", "")]
    public void PrintedInputBeyondAnOffer_LeavesTheOfferSure(string volts, string told)
    {
        string label = "label: \"Input: USB-C: 28V 3A\\nOutput: USB-C: 20V 3.25A\"\n";

        Told($"{label}parts: [{{part: Q1, node: C, volts: {volts}}}]", "part-rating-exceeded").Should().Equal(told.Length == 0 ? [] : [told]);
        Told($"{label}parts: [{{part: Q1, node: bridge, volts: {volts}}}]", "part-rating-exceeded").Should().Equal(told.Length == 0 ? [] : [told]);
        Told($"{label}parts: [{{part: D1, kind: tvs, node: C, standoff: {volts}}}]", "tvs-conducts-in-use")
            .Should().Equal(volts == "21.4V" ? ["cannot tell: 21.4 V"] : told.Length == 0 ? [] : [told]);
    }

    [Theory]
    [InlineData("{part: X, kind: tsv, node: C, standoff: 5V}", "Did you mean \"tvs\"?")]
    [InlineData("{part: X, kind: tvs, node: C, volts: 5V}", "\"volts\" is no member of a part")]
    [InlineData("{part: X, kind: inductor, node: C}", "needs its name, its node and its figures, as {part: L1")]
    [InlineData("{part: X, kind: cable, node: C, awg: 41, length_m: 1}", "a number from 0 to 40 was expected in \"awg\"")]
    public void PartThatCannotBeJudged_IsSaid(string part, string told) => Analyse($"parts: [{part}]").Faults.Should().Contain(
        fault => fault.Fault.Detail.Contains(told, StringComparison.Ordinal));

    // ASTM B258 (second-hand): milliohms of a metre of one wire.
    [Theory]
    [InlineData(16, 13_200)]
    [InlineData(20, 33_300)]
    [InlineData(24, 84_200)]
    [InlineData(28, 213_000)]
    [InlineData(32, 538_000)]
    public void Gauge_GivesTheResistanceOfCopper(int gauge, int microohms) =>
        (WireGauge.MicroohmsThereAndBack(gauge, 1000) / 2).Should().BeCloseTo(microohms, (uint)microohms / 200);

    private static IEnumerable<string> Told(string members, string rule) => Analyse(members).Findings.Where(one => one.Rule == rule)
        .Select(static one => $"{(one.Verdict == Verdict.Fails ? "fails" : "cannot tell")}: {one.Observed}");

    private static ProductAnalysis Analyse(string members)
    {
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", $"product: x\n{members}\ncaptures: [{{file: c.words, port: C}}]\n", null);
        check.Open("c.words").Write(Encoding.UTF8.GetBytes(Offers));
        check.Close();
        return check.Complete();
    }
}
