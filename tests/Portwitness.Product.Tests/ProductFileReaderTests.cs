using CsCheck;

namespace Portwitness.Product.Tests;

/// <summary>Product files, good and bad.</summary>
public class ProductFileReaderTests
{
    [Fact]
    public void DesignExample_IsRead()
    {
        ProductFile product = ProductFileReader.Read(
            """
            product: Tarnholt TH-65 wall charger
            label: |
              INPUT 100-240V~
              USB-C1: 5V⎓3A
            ports:
              C1: {cable: captive}
            captures:
              - {file: c1.capture.jsonl, port: C1, in_use: [C1]}
              - file: both/c1.capture.jsonl
                port: C1
                in_use: [C1, C2]
            """);

        product.Product.Should().Be("Tarnholt TH-65 wall charger");
        product.Label.Should().Be("INPUT 100-240V~\nUSB-C1: 5V⎓3A\n");
        product.CaptivePorts["C1"].Should().BeTrue();
        product.Captures.Select(c => c.File).Should().Equal("c1.capture.jsonl", "both/c1.capture.jsonl");
        product.Captures[1].InUse.Should().Equal("C1", "C2");
        product.Faults.Should().BeEmpty();
    }

    [Theory]
    [InlineData("captures:\n  - {file: ../secret}", 2, 12, "path-leaves-folder")]
    [InlineData("captures:\n  - {file: /etc/passwd}", 2, 12, "path-leaves-folder")]
    [InlineData("captures:\n  - {file: a/../../b}", 2, 12, "path-leaves-folder")]
    [InlineData("captures:\n  - {file: \"C:\\\\b\"}", 2, 12, "path-leaves-folder")]
    [InlineData("captures:\n  - {port: C1}", 2, 5, "value-wrong")]
    [InlineData("captures: none", 1, 11, "value-wrong")]
    [InlineData("product: [a]\ncaptures:\n  - {file: a}", 1, 10, "value-wrong")]
    [InlineData("ports: {C1: {cable: long}}\ncaptures:\n  - {file: a}", 1, 14, "value-wrong")]
    [InlineData("battery: {}\ncaptures:\n  - {file: a}", 1, 10, "value-wrong")]
    [InlineData("battery: {cells: {capacity_mah: 0, nominal_v: 3.85}}\ncaptures:\n  - {file: a}", 1, 33, "value-wrong")]
    [InlineData("discharges: [{at: 5V 2A}]\ncaptures:\n  - {file: a}", 1, 14, "value-wrong")]
    [InlineData("discharges: [{file: ../log.csv}]\ncaptures:\n  - {file: a}", 1, 21, "path-leaves-folder")]
    [InlineData("discharges: [{file: l.csv, at: 5 volts}]\ncaptures:\n  - {file: a}", 1, 32, "value-wrong")]
    [InlineData("discharges: [{file: l.csv, begun: half}]\ncaptures:\n  - {file: a}", 1, 35, "value-wrong")]
    [InlineData("discharges: [{file: l.csv, longest_step: 2h}]\ncaptures:\n  - {file: a}", 1, 42, "value-wrong")]
    [InlineData("adapter: [{no_load_w: 0.1}]\ncaptures:\n  - {file: a}", 1, 11, "value-wrong")]
    [InlineData("adapter: [{at: 20V 3A, points: [{load: 25, input_w: 9, output_w: 8}]}]\ncaptures:\n  - {file: a}", 1, 40, "value-wrong")]
    [InlineData("parts: [{part: Q3, volts: 30V}]\ncaptures:\n  - {file: a}", 1, 9, "value-wrong")]
    [InlineData("parts: [{part: Q3, node: C1, volts: 30}]\ncaptures:\n  - {file: a}", 1, 37, "value-wrong")]
    [InlineData("parts: [{part: Q3, node: C1, volts: 30V, headroom: 100%}]\ncaptures:\n  - {file: a}", 1, 52, "value-wrong")]
    [InlineData("colour: red\ncaptures:\n  - {file: a}", 1, 1, "member-unused")]
    [InlineData("product: x", 1, 1, "no-captures")]
    [InlineData("", 1, 1, "product-file-unreadable")]
    [InlineData("- a\n- b", 1, 1, "product-file-unreadable")]
    [InlineData("a: *b", 1, 4, "product-file-unreadable")]
    public void BadFile_IsReportedWithItsPlace(string text, int line, int column, string code) =>
        ProductFileReader.Read(text).Faults.Should().Contain(fault =>
            fault.Line == line && fault.Column == column && fault.Code == code);

    [Theory]
    [InlineData("discharges", "file: a.csv", 1_000)]
    [InlineData("loads", "{port: A, set: 1A, volts: 5V}", 1_000)]
    [InlineData("claims", "{text: \"30 g\", kind: mass, mass_g: 30}", 200)]
    [InlineData("converters", "{id: U1, ports: [A, B]}", 100)]
    [InlineData("teardown", "{ref: U1, function: controller}", 1_000)]
    [InlineData("parts", "{part: Q1, node: C1, volts: 30V}", 1_000)]
    [InlineData("labels", "{name: x, label: a.txt}", 20)]
    [InlineData("label_corrections", "{line: 1, no_rating: true}", 200)]
    [InlineData("adapter", "{at: 20V 3A, no_load_w: 0.1}", 100)]
    public void LongerListThanMayBe_IsAFaultAtWhatIsNotRead(string member, string item, int most)
    {
        string Entries(int count) => $"{member}:\n" + string.Concat(Enumerable.Repeat($"  - {item}\n", count));

        ProductFileReader.Read(Entries(most + 1)).Faults.Should().Contain(fault => fault.Line == most + 2 && fault.Code == "value-wrong"
            && fault.Detail.Contains($"at most {most} are read"));
        ProductFileReader.Read(Entries(most)).Faults.Should().NotContain(fault => fault.Detail.Contains("are read"));
    }

    [Fact]
    public void BrokenYaml_NamesTheLine()
    {
        ProductFile product = ProductFileReader.Read("product: x\ncaptures: [\n");
        product.Faults.Should().ContainSingle().Which.Code.Should().Be("product-file-unreadable");
        product.Faults[0].Line.Should().BeInRange(2, 3);
    }

    [Fact]
    public void DeepNesting_IsRefused() => ProductFileReader.Read(new string('[', 100_000)).Faults
        .Should().ContainSingle().Which.Code.Should().Be("product-file-unreadable");

    [Fact]
    public void OverlongFile_IsRefused() => ProductFileReader.Read(new string('a', ProductFileReader.MaxCharacters + 1)).Faults
        .Should().ContainSingle().Which.Detail.Should().Contain("1048576");

    [Fact]
    public void RandomText_NeverThrows() => Check.Sample(
        Gen.String[Gen.Char["-:{}[]&*!|>'\"%@`#,? \nabc\t"], 0, 80], text => ProductFileReader.Read(text));

    [Fact]
    public void RandomCaptures_NeverThrow()
    {
        string[] pieces = ["captures:", "\n", "  - ", "{file: a}", "port: C1", "[", "]", ":", " ", "label: |", "\t"];
        Check.Sample(Gen.OneOf([.. pieces.Select(piece => Gen.Const(piece))]).Array[0, 30], picks =>
            ProductFileReader.Read(string.Concat(picks)));
    }
}
