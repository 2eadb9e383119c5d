using System.Text;
using Portwitness.Analysis.Evidence;
using Portwitness.Captures;
using Portwitness.Labels;

namespace Portwitness.Product.Tests;

/// <summary>Ratings and corrections in product.yaml. Words as in <see cref="LabelComparisonTests"/>.</summary>
public class EnteredByHandTests
{
    private const string Captures = "captures: [{file: c, port: C1, in_use: [C1]}]\n";

    [Fact]
    public void Ratings_AreJudgedAsALabelIs()
    {
        ProductAnalysis analysis = Run("""
            product: Tarnholt TH-27
            ratings:
              inputs: {mains: 100-240V~ 50/60Hz 0.8A}
              outputs:
                C1: {modes: [5V 3A, 9V 3A], ranges: [PPS 3.3-11V 3A], maximum: 27W}
                C2: [5V 3A]
              combinations:
                C1+C2: {C1: 15W, C2: 12W}
              total: 27W
              battery: {capacity: 10000mAh, voltage: 3.7V, energy: 37Wh, rated: 6000mAh (5V 3A)}
            """);

        analysis.Faults.Should().BeEmpty();
        Label label = analysis.Label!;
        label.ByHand.Should().BeTrue();
        label.Unread.Should().BeEmpty();
        label.Inputs.Should().ContainSingle().Which.Alternating.Should().BeTrue();
        label.Outputs.Select(output => output.Port).Should().Equal("C1", "C2");
        label.Outputs[0].Ranges.Should().ContainSingle().Which.Kind.Should().Be("PPS");
        label.Outputs[0].Maximum!.Power.Milliwatts.Should().Be(27_000);
        label.Combinations.Should().ContainSingle().Which.Split.Should().HaveCount(2);
        label.Battery!.RatedCurrent!.Value.Milliamperes.Should().Be(3000);
        analysis.Statements.Should().Contain(statement => statement.Claim.Text() == "C1 gives 9 V 3 A" && statement.Verdict == Verdict.Holds);
    }

    [Theory]
    [InlineData("ratings: {outputs: {C1: [five volts]}}", "five volts")]
    [InlineData("ratings: {outputs: {C1: {power: 5W}}}", "\"power\" is no member of an output")]
    [InlineData("ratings: {colour: red}", "\"colour\" is no member of ratings")]
    [InlineData("ratings: [5V 3A]", "names with values were expected")]
    [InlineData("label: 'C1: 5V 3A'\nratings: {total: 5W}", "both given")]
    [InlineData("label: 'C1: 5V#3A'\nlabel_corrections: [{line: 2, printed: '5V#3A', read_as: 5V 3A}]", "exactly once")]
    [InlineData("label: 'C1: 5V#3A'\nlabel_corrections: [{line: one, printed: '5V#3A', read_as: 5V 3A}]", "a correction needs")]
    public void WhatIsWrong_IsAFaultAtItsPlace(string yaml, string detail)
    {
        CaptureFault fault = Run("product: x\n" + yaml).Faults.Should().ContainSingle().Subject.Fault;

        fault.Detail.Should().Contain(detail);
        fault.Line.Should().BePositive();
    }

    [Theory]
    [InlineData("ratings:", 2, 9, "ratings")]
    [InlineData("ratings: {}", 2, 10, "ratings")]
    [InlineData("ratings: {outputs: {}}", 2, 20, "outputs")]
    [InlineData("ratings: {outputs: {C1: }}", 2, 25, "C1")]
    [InlineData("ratings: {outputs: {C1: ' '}}", 2, 25, "C1")]
    [InlineData("ratings: {outputs: {C1: []}}", 2, 25, "C1")]
    [InlineData("ratings: {outputs: {C1: ['']}}", 2, 26, "C1")]
    [InlineData("ratings: {outputs: {C1: {}}}", 2, 25, "C1")]
    [InlineData("ratings: {outputs: {C1: {modes: []}}}", 2, 33, "modes")]
    [InlineData("ratings: {outputs: {C1: {maximum: ''}}}", 2, 35, "maximum")]
    [InlineData("ratings: {inputs: {mains: ''}}", 2, 27, "mains")]
    [InlineData("ratings: {total: ''}", 2, 18, "total")]
    [InlineData("ratings: {combinations: {C1+C2: ''}}", 2, 33, "C1+C2")]
    [InlineData("ratings: {combinations: {C1+C2: {total: ''}}}", 2, 41, "total")]
    [InlineData("ratings: {battery: {}}", 2, 20, "battery")]
    [InlineData("ratings: {battery: {rated: ''}}", 2, 28, "rated")]
    [InlineData("ratings: {battery: {energy: ''}}", 2, 29, "energy")]
    public void WhatStatesNothing_IsAFaultAtItsPlaceWithARemedy(string yaml, int line, int column, string where)
    {
        CaptureFault fault = Run("product: x\n" + yaml).Faults.Should().ContainSingle().Subject.Fault;

        (fault.Line, fault.Column).Should().Be((line, column));
        fault.Detail.Should().StartWith($"a value was expected in \"{where}\"").And.Contain("5V 3A").And.Contain("leave the name out");
    }

    [Fact]
    public void EmptyValueBesideOthers_LosesOnlyItself()
    {
        ProductAnalysis analysis = Run("product: x\nratings: {outputs: {C1: {modes: [5V 3A, '', 9V 3A], maximum: }}}");

        analysis.Faults.Should().HaveCount(2);
        analysis.Label!.Outputs[0].Fixed.Should().HaveCount(2);
        analysis.Label.Unread.Should().BeEmpty();
    }

    [Fact]
    public void Correction_SettlesAnUnreadSpan()
    {
        ProductAnalysis analysis = Run("""
            product: x
            label: |
              C1: 5V⎓3A
              9V#3A
            label_corrections:
              - {line: 2, printed: "9V#3A", read_as: 9V⎓3A}
            """);

        analysis.Faults.Should().BeEmpty();
        analysis.Label!.Unread.Should().BeEmpty();
        analysis.Label.Repairs.Should().ContainSingle().Which.Kind.Should().Be(RepairKind.ByHand);
        analysis.Findings.Should().BeEmpty();
        analysis.Statements.Should().HaveCount(2).And.OnlyContain(statement => statement.Verdict == Verdict.Holds);
    }

    [Fact]
    public void GuessedCharacters_AccuseNobodyUntilSettled()
    {
        const string Label = "product: x\nlabel: 'C1: 5V⎓3A 9V⎓3.SA'\n";
        ProductAnalysis open = Run(Label);

        open.Accusations().Should().BeEmpty();
        open.Verdict.Should().Be(Verdict.CannotTell);
        open.NextSteps.Should().Contain(step => step.Contains("label_corrections:", StringComparison.Ordinal));

        Run(Label + "label_corrections: [{line: 1, printed: 3.SA, read_as: 3.5A}]\n").Verdict.Should().Be(Verdict.Fails);
    }

    [Theory]
    [InlineData("ratings: {outputs: {C1: }}")]
    [InlineData("ratings: {outputs: {C1: []}}")]
    [InlineData("ratings: {outputs: {C1: {}}}")]
    [InlineData("ratings: {outputs: {C1: {modes: [5V 3A, \"\"]}}}")]
    [InlineData("ratings: {outputs: {C1: {modes: 5V 3A, maximum: }}}")]
    [InlineData("ratings: {outputs: {C1: 5V 3A}, total: }")]
    [InlineData("ratings: {outputs: {C1: 5V 3A}, combinations: {C1+C2: {total: }}}")]
    [InlineData("ratings: {outputs: {C1: 5V 3A}, battery: {capacity: \"\"}}")]
    public void EmptyValue_IsAFaultAtItsPlace(string ratings)
    {
        CaptureFault fault = Run(ratings).Faults.Should().ContainSingle().Subject.Fault;

        (fault.Line, fault.Code).Should().Be((1, ProductFaultCodes.ValueWrong));
        fault.Detail.Should().Contain("expected");
    }

    // The words 5 V 3 A and 9 V 3 A, as a list that follows a contract (R3.2v1.1, 6.4.1).
    private static ProductAnalysis Run(string yaml)
    {
        ProductCheck check = ProductCheck.ForProduct("product.yaml", yaml + "\n" + Captures, null);
        foreach (string file in check.Files)
        {
            check.Open(file).Write(Encoding.UTF8.GetBytes(
                """
                {"capture":1,"cable":{"kind":"detachable","current_a":5},"edition":"R3.0"}
                {"t":100000,"sop":"SOP","hex":"A1212C9101082CD10200"}
                {"t":102000,"sop":"SOP","hex":"82102CB10413"}
                {"t":104000,"sop":"SOP","hex":"A303"}
                {"t":204000,"sop":"SOP","hex":"A605"}

                """));
            check.Close();
        }

        return check.Complete();
    }
}
