using Portwitness.Analysis.Evidence;
using Portwitness.Product.Teardown;

namespace Portwitness.Product.Tests.Teardown;

/// <summary>The ledger of a teardown: what it says of parts, and what nobody accounted for (common practice, no source).</summary>
public class LedgerTests
{
    private const string Pack = "product: x\nlabel: \"USB-C: 20V 3.25A\\nUSB-A: 5V 3A\"\nbattery: {cells: {series: 3, capacity_mah: 4500, nominal_v: 3.6, full_v: 4.2}}\n";

    // 12.6 V of a full pack; what was only inferred accuses nobody.
    [Theory]
    [InlineData("identified: read", Verdict.Fails)]
    [InlineData("identified: datasheet", Verdict.Fails)]
    [InlineData("identified: inferred", Verdict.CannotTell)]
    public void LineWithRatings_IsJudgedAsAPart(string identified, Verdict verdict)
    {
        ProductAnalysis analysis = ProductRun.Typed($"{Pack}teardown: [{{ref: Q1, function: switch, marking: A1SH, node: pack, volts: 12V, {identified}}}]\n");

        analysis.Findings.Where(static one => one.Rule == "part-rating-exceeded").Select(static one => (one.Verdict, one.Observed.ToString())).Should().Equal((verdict, "12 V"));
        analysis.Teardown.Single().Should().Match<LedgerEntry>(static one => one.Ref == "Q1" && one.Marking == "A1SH" && one.Ratings == "node pack, volts 12V");
    }

    // Its function says its kind where no kind is stated.
    [Fact]
    public void Function_IsTheKindOfAPart() => ProductRun.Typed($"{Pack}teardown: [{{ref: D1, function: tvs, node: pack, standoff: 12V, identified: read}}]\n")
        .Findings.Select(static one => one.Rule).Should().Contain("tvs-conducts-in-use");

    [Fact]
    public void PartOfBoth_IsJudgedOnce() => ProductRun.Typed(
        $"{Pack}parts: [{{part: Q1, node: pack, volts: 30V}}]\nteardown: [{{ref: Q1, function: switch, node: pack, volts: 12V}}]\n")
        .Parts.Select(static one => one.Part.Volts!.Value.Millivolts).Should().Equal(30_000);

    [Fact]
    public void LineWithoutRatings_IsOnlyListed()
    {
        ProductAnalysis analysis = ProductRun.Typed($"{Pack}teardown: [{{marking: \"8205\", maker: Northfell, package: TSSOP-8, count: 2, photo: board.jpg, board: main, side: top, source: our own}}]\n");

        analysis.Parts.Should().BeEmpty();
        analysis.Faults.Should().BeEmpty();
        analysis.Teardown.Single().Should().Be(new LedgerEntry
        {
            Marking = "8205", Maker = "Northfell", Package = "TSSOP-8", Count = 2, Photo = "board.jpg", Board = "main", Side = "top", Source = "our own",
        });
    }

    // Absent only where somebody searched.
    [Fact]
    public void Checklist_SaysWhatNobodyAccountedFor() => ProductRun.Typed(
        $$"""
        {{Pack}}teardown:
          - {ref: U2, function: protection, identified: inferred}
          - {ref: U3, function: Balancing, identified: read}
          - {function: thermistor, searched: true}
          - {ref: Q1, function: switch, count: 2, identified: datasheet}
          - {ref: D1, function: tvs, identified: read}
        """).FunctionChecks.Select(static one => $"{one.Function} {one.Found}/{one.Wanted} {one.State} for {one.WantedFor}").Should().Equal(
        "protection 1/1 Inferred for lithium cells", "balancing 1/1 Found for 3 cells in series", "thermistor 0/1 Absent for lithium cells", "switch 2/2 Found for C, A",
        "tvs 1/2 NotAccountedFor for C, A");

    [Fact]
    public void ProductWithoutCells_IsAskedForNoneOfTheirFunctions() => ProductRun.Typed(
        "product: x\nlabel: \"USB-C: 20V 3.25A\"\nteardown: [{ref: Q1, function: switch}]\n").FunctionChecks.Select(static one => one.Function).Should().Equal("switch", "tvs");

    [Fact]
    public void WithoutALedger_ThereIsNoChecklist() => ProductRun.Typed(Pack).FunctionChecks.Should().BeEmpty();

    // What protects the cells may be stated there; a TVS under "parts:".
    [Fact]
    public void WhatIsStatedElsewhere_Counts() => ProductRun.Typed(
        """
        product: x
        label: "USB-C: 20V 3.25A"
        battery: {cells: {series: 1, capacity_mah: 4500, nominal_v: 3.6, protection: [over-charge]}}
        parts: [{part: D1, kind: tvs, node: C, standoff: 24V}]
        teardown: [{ref: Q1, function: switch}]
        """).FunctionChecks.Select(static one => (one.Function, one.State)).Should().Equal(
        ("protection", FunctionState.Found), ("thermistor", FunctionState.NotAccountedFor), ("switch", FunctionState.Found), ("tvs", FunctionState.Found));

    [Theory]
    [InlineData("{maker: Northfell}", "needs \"ref:\", \"function:\" or \"marking:\"")]
    [InlineData("{searched: true}", "needs \"ref:\", \"function:\" or \"marking:\"")]
    [InlineData("{ref: Q1, identified: guessed}", "\"identified:\" is read, datasheet or inferred")]
    [InlineData("{ref: Q1, count: 0}", "a number from 1 to 10000 was expected in \"count\"")]
    [InlineData("{ref: Q1, node: pack}", "a part needs its name")]
    public void LineThatCannotBeRead_IsSaid(string line, string told) =>
        ProductRun.Typed($"{Pack}teardown: [{line}]\n").Faults.Should().Contain(fault => fault.Fault.Detail.Contains(told, StringComparison.Ordinal));
}
