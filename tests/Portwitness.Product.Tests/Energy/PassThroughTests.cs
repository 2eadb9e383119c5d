using System.Collections.Immutable;
using Portwitness.Product.Energy;

namespace Portwitness.Product.Tests.Energy;

/// <summary>Power in, out and into the pack: volts times amperes.</summary>
public class PassThroughTests
{
    private const string In = "{port: C, at: 9V 3A, in_use: [{C: in}, {A: out}], measured: 8.9V 3A}";
    private const string Out = "{port: A, at: 5V 2A, in_use: [{C: in}, {A: out}], measured: 5V 2A}";

    [Fact]
    public void PowerIntoThePack_IsWhatDoesNotComeOut()
    {
        PassThrough passing = Of($"{In}, {Out}").Single();

        passing.Should().Match<PassThrough>(static one => one.InMilliwatts == 26_700 && one.OutMilliwatts == 10_000 && one.IntoPackMilliwatts == 16_700);
        passing.Inputs.Should().Equal("C");
        passing.Outputs.Should().Equal("A");
    }

    // 10 W in, 18 W out: the pack gives the rest.
    [Fact]
    public void MoreOutThanIn_ComesFromThePack() => Of(
        "{port: C, at: 5V 2A, in_use: [{C: in}, {A: out}], measured: 5V 2A}, {port: A, at: 9V 2A, in_use: [{C: in}, {A: out}], measured: 9V 2A}")
        .Single().IntoPackMilliwatts.Should().Be(-8_000);

    [Fact]
    public void PortThatWasNotRead_LeavesItOpen()
    {
        Of(In).Single().Should().Match<PassThrough>(static one => one.InMilliwatts == 26_700 && one.OutMilliwatts == null && one.IntoPackMilliwatts == null);
        Of($"{In}, {Out}, {Out}").Single().OutMilliwatts.Should().BeNull();
    }

    [Theory]
    [InlineData("4.9V 2A", true)]
    [InlineData("0V 0A", false)]
    public void WhenTheInputLeaves_TheOutputGoesOnOrDrops(string measured, bool goesOn)
    {
        PassThrough passing = Of($"{In}, {Out}, {{port: A, at: 5V 2A, in_use: [{{C: in}}, {{A: out}}], input_left: true, measured: {measured}}}").Single();

        passing.WithoutInput.Select(static one => (one.Reading.Port, one.GoesOn)).Should().Equal(("A", goesOn));
        passing.OutMilliwatts.Should().Be(10_000);
    }

    // A voltage that a charger gives to an input is nothing that the product gives.
    [Fact]
    public void ReadingsOfInputs_ProveNoRating()
    {
        ProductAnalysis analysis = ProductRun.Typed(
            "product: x\nlabel: \"USB-C: 9V 3A\\nUSB-A: 5V 2A\"\nloads: [{port: C, at: 9V 3A, in_use: [{C: in}, {A: out}], measured: 4V 3A}]\n");

        analysis.Findings.Should().NotContain(static one => one.Rule == "output-voltage-outside-tolerance");
        analysis.Energy.Readings.Should().BeEmpty();
    }

    [Theory]
    [InlineData("{port: C, at: 9V 3A, in_use: [{C: into}], measured: 9V 3A}", "takes power or gives it, as [{C: in}, {A: out}]")]
    [InlineData("{port: A, at: 5V 2A, input_left: true, measured: 5V 2A}", "needs the input that left")]
    [InlineData("{port: A, at: 5V 2A, in_use: [{C: in}, {A: out}], file: a.csv}", "go with \"measured:\", not with a log")]
    public void RoleThatCannotBeRead_IsSaid(string load, string told) => ProductRun.Typed($"product: x\nlabel: \"USB-C: 9V 3A\"\nloads: [{load}]\n").Faults
        .Should().Contain(fault => fault.Fault.Detail.Contains(told, StringComparison.Ordinal));

    private static ImmutableArray<PassThrough> Of(string loads) => ProductRun.Typed($"product: x\nlabel: \"USB-C: 9V 3A\"\nloads: [{loads}]\n").PassThrough;
}
