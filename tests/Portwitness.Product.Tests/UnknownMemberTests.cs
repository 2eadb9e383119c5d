using System.Text.RegularExpressions;
using Portwitness.Analysis.Evidence;
using Portwitness.Captures;

namespace Portwitness.Product.Tests;

/// <summary>A name that nothing has is an error wherever it stands: what it was meant to say would be missing without a word.</summary>
public partial class UnknownMemberTests
{
    private const string Capture = "\ncaptures:\n  - {file: c.words, port: C}\n";

    [Theory]
    [InlineData("lable: \"USB-C: 5V 3A\"", 1, 1, "label")]
    [InlineData("Label: \"USB-C: 5V 3A\"", 1, 1, "label")]
    [InlineData("label-corrections: []", 1, 1, "label_corrections")]
    [InlineData("label_corrections:\n  - {line: 1, printed: a, read-as: b}", 2, 27, "read_as")]
    [InlineData("ratings: {output: {C: 5V 3A}}", 1, 11, "outputs")]
    [InlineData("ratings: {outputs: {C: {mode: 5V 3A}}}", 1, 25, "modes")]
    [InlineData("ratings: {battery: {capcity: 5000mAh}}", 1, 21, "capacity")]
    [InlineData("ports: {C: {cabel: captive}}", 1, 13, "cable")]
    [InlineData("discharges:\n  - {file: log.csv, cutoff: 3V}", 2, 21, "cut_off")]
    [InlineData("discharges:\n  - {file: log.csv, columns: {volt: 2}}", 2, 31, "volts")]
    [InlineData("discharges:\n  - {file: log.csv, columns: {volts: {column: 2, units: V}}}", 2, 50, "unit")]
    [InlineData("discharges:\n  - {file: log.csv, accuracy: {volt: 1%}}", 2, 32, "volts")]
    [InlineData("battery: {cell: {}}", 1, 11, "cells")]
    [InlineData("battery: {cells: {capacity_mAh: 5000, nominal_v: 3.7}}", 1, 19, "capacity_mah")]
    [InlineData("adapter:\n  - {at: 20V 3A, noload_w: 0.1}", 2, 18, "no_load_w")]
    [InlineData("adapter:\n  - {at: 20V 3A, points: [{laod: 25%, input_w: 18, output_w: 16}]}", 2, 28, "load")]
    [InlineData("parts:\n  - {part: Q1, nodes: C, volts: 30V}", 2, 16, "node")]
    [InlineData("teardown:\n  - {reff: U1}", 2, 6, "ref")]
    [InlineData("converters:\n  - {id: U1, port: [C]}", 2, 14, "ports")]
    public void UnknownName_IsAnErrorWithItsPlaceAndTheNameThatIsMeant(string member, int line, int column, string meant)
    {
        CaptureFault fault = ProductFileReader.Read(member + Capture).Faults.Single(one => one.Code == ProductFaultCodes.MemberUnused);

        (fault.Line, fault.Column).Should().Be((line, column));
        fault.Detail.Should().Contain($"Did you mean \"{meant}\"?").And.Contain("Known members: ");
    }

    [Theory]
    [InlineData("captures:\n  - {file: a, prot: C1}", "port")]
    [InlineData("captures:\n  - {file: a, inuse: [C1]}", "in_use")]
    [InlineData("captures:\n  - {file: a, measurements: {file: m, ofset: 1s}}", "offset")]
    public void UnknownNameOfACapture_IsAnError(string text, string meant) => ProductFileReader.Read(text).Faults
        .Should().ContainSingle(fault => fault.Code == ProductFaultCodes.MemberUnused).Which.Detail.Should().Contain($"Did you mean \"{meant}\"?");

    [Fact]
    public void NameThatIsLikeNone_GetsTheKnownNamesAlone() => ProductFileReader.Read("colour: red" + Capture).Faults.Single().Detail.Should().Be(
        "\"colour\" is no member of a product file. Known members: product, sample, firmware, label, labels, label_corrections, ratings, ports, signalling, "
        + "captures, offers, loads, discharges, battery, adapter, parts, converters, teardown, claims, opened, state, travel, soaks, touch");

    // A label that is not read must never be a label that is kept.
    [Theory]
    [InlineData("lable: \"USB-C: 20V 5A (100W Max)\"")]
    [InlineData("label: \"USB-C: 5V 3A\"\nlabel: \"USB-C: 20V 5A (100W Max)\"")]
    [InlineData("label: \"USB-C: 5V 3A\"\nparts:\n  - {part: Q1, node: C, volts: 30V, volts: 3V}")]
    [InlineData("label: label.txt")]
    public void ProductWithAnUnknownOrRepeatedName_IsNotJudged(string members)
    {
        ProductAnalysis analysis = Judge(members);

        analysis.Unusable.Should().BeTrue();
        analysis.Verdict.Should().Be(Verdict.CannotTell);
    }

    [Theory]
    [InlineData("label: a\nlabel: b", 2, 1)]
    [InlineData("ratings: {outputs: {C1: 5V 3A, C1: 9V 3A}}", 1, 32)]
    [InlineData("battery: {cells: {series: 1, series: 2, capacity_mah: 5000, nominal_v: 3.7}}", 1, 30)]
    public void NameThatIsGivenTwice_IsAnError(string member, int line, int column) => ProductFileReader.Read(member + Capture).Faults
        .Should().ContainSingle(fault => fault.Code == ProductFaultCodes.MemberRepeated).Which.Should().Match<CaptureFault>(fault =>
            fault.Line == line && fault.Column == column && fault.Detail.Contains("is given twice"));

    // The names that a message lists, and those that the reader takes, are the same.
    [Theory]
    [InlineData("{0}: x")]
    [InlineData("label_corrections: [{{{0}: x}}]")]
    [InlineData("ratings: {{{0}: x}}")]
    [InlineData("ratings: {{outputs: {{C: {{{0}: x}}}}}}")]
    [InlineData("ratings: {{battery: {{{0}: x}}}}")]
    [InlineData("ports: {{C: {{{0}: x}}}}")]
    [InlineData("discharges: [{{{0}: x}}]")]
    [InlineData("discharges: [{{columns: {{{0}: x}}}}]")]
    [InlineData("discharges: [{{columns: {{time: {{{0}: x}}}}}}]")]
    [InlineData("discharges: [{{accuracy: {{{0}: x}}}}]")]
    [InlineData("captures: [{{{0}: x}}]")]
    [InlineData("captures: [{{columns: {{{0}: x}}}}]")]
    [InlineData("captures: [{{measurements: {{{0}: x}}}}]")]
    [InlineData("battery: {{{0}: x}}")]
    [InlineData("battery: {{cells: {{{0}: x}}}}")]
    [InlineData("adapter: [{{{0}: x}}]")]
    [InlineData("adapter: [{{at: 20V 3A, points: [{{{0}: x}}]}}]")]
    [InlineData("parts: [{{{0}: x}}]")]
    [InlineData("converters: [{{{0}: x}}]")]
    [InlineData("teardown: [{{{0}: x}}]")]
    [InlineData("claims: [{{{0}: x}}]")]
    [InlineData("travel: {{{0}: x}}")]
    [InlineData("loads: [{{{0}: x}}]")]
    public void KnownNames_AreTaken(string shape)
    {
        string[] known = Known(ProductFileReader.Read(With("qqqqqqqq")).Faults);
        known.Should().NotBeEmpty();

        foreach (string name in known)
        {
            ProductFileReader.Read(With(name)).Faults.Should().NotContain(fault => fault.Code == ProductFaultCodes.MemberUnused, name);
        }

        string With(string name) => string.Format(System.Globalization.CultureInfo.InvariantCulture, shape, name);
    }

    private static string[] Known(IEnumerable<CaptureFault> faults) => faults.Where(static fault => fault.Code == ProductFaultCodes.MemberUnused)
        .Select(static fault => KnownMembers().Match(fault.Detail).Groups[1].Value).Single().Split(", ");

    private static ProductAnalysis Judge(string members)
    {
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", members + Capture, null);
        check.Open("c.words").Write("0x0801912C"u8.ToArray());
        check.Close();
        return check.Complete();
    }

    [GeneratedRegex("Known members: (.*)$")]
    private static partial Regex KnownMembers();
}
