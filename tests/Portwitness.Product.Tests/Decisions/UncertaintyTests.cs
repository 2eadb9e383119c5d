using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Product.Decisions;

namespace Portwitness.Product.Tests.Decisions;

/// <summary>Uncertainty by the GUM, and the four words of guarded acceptance (JCGM 106 and ILAC-G8, second-hand).</summary>
public class UncertaintyTests
{
    // 20.00 V ± (0.05 % + 5 mV), 3.250 A ± (0.1 % + 3 mA): 65.00 W with U = 0.155 W. In µW: 3.25 A per 15,000 µV, 20 V per 6,250 µA
    // (NIST TN 1297, 4.3 for the factors; the figures are reckoned by hand).
    [Fact]
    public void Power_HasTheUncertaintyOfBothMeters() =>
        Uncertainty.Expanded([(3.25, 15_000), (20, 6_250)]).Should().BeInRange(154_800, 155_000);

    // Two contacts of a cable: each voltage ± 3 mV, I ± 6 mA at 3 A, R = (V1 - V2) / I = 113.3 mΩ: U = 1.7 mΩ.
    [Fact]
    public void Resistance_HasTheUncertaintyOfThreeReadings() =>
        (Uncertainty.Expanded([(1_000 / 3.0, 3), (1_000 / 3.0, 3), (113.333 / 3, 6)]) / 1_000.0).Should().BeInRange(1.65, 1.75);

    // A rectangle alone: 2 a / √3.
    [Fact]
    public void OneLimit_IsARectangle() => Uncertainty.Expanded(1_000_000).Should().Be(1_154_701);

    [Theory]
    [InlineData(0, 0)]
    [InlineData(long.MaxValue, long.MaxValue)]
    public void Ends_AreWhereTheyBelong(long limit, long expanded) => Uncertainty.Expanded(limit).Should().Be(expanded);

    // 9 V fixed, 8.55 to 9.45 V, U 0.030 V: the pass band is 8.58 to 9.42 V.
    [Theory]
    [InlineData(8_600, DecisionWord.Pass, Verdict.Holds, Verdict.Holds)]
    [InlineData(8_580, DecisionWord.Pass, Verdict.Holds, Verdict.Holds)]
    [InlineData(8_570, DecisionWord.ConditionalPass, Verdict.Holds, Verdict.CannotTell)]
    [InlineData(8_550, DecisionWord.ConditionalPass, Verdict.Holds, Verdict.CannotTell)]
    [InlineData(8_530, DecisionWord.ConditionalFail, Verdict.CannotTell, Verdict.CannotTell)]
    [InlineData(8_520, DecisionWord.ConditionalFail, Verdict.CannotTell, Verdict.CannotTell)]
    [InlineData(8_510, DecisionWord.Fail, Verdict.Fails, Verdict.Fails)]
    [InlineData(9_430, DecisionWord.ConditionalPass, Verdict.Holds, Verdict.CannotTell)]
    [InlineData(9_490, DecisionWord.Fail, Verdict.Fails, Verdict.Fails)]
    public void Reading_HasItsWordAndVerdict(long millivolts, DecisionWord word, Verdict simple, Verdict guarded)
    {
        MeasuredDecision measured = new("C1", [], "VBUS", QuantityUnit.Microvolts, millivolts * 1000, 8_550_000, 9_450_000, 30_000, 30_000) { IsStated = true };

        measured.Word.Should().Be(word);
        (word.By(DecisionRule.Simple, isStated: true), word.By(DecisionRule.Guarded, isStated: true)).Should().Be((simple, guarded));

        // Of a meter of which nothing is stated, what is taken guards.
        word.By(DecisionRule.Simple, isStated: false).Should().Be(guarded);
    }

    // Nothing reads off by more than its limit, and a rectangle ends there.
    [Fact]
    public void GuardBand_EndsAtTheLimitOfTheMeter() =>
        new MeasuredDecision("C1", [], "VBUS", QuantityUnit.Microvolts, 4_760_000, 4_750_000, null, 11_548, 10_000) { IsStated = true }.Word.Should().Be(DecisionWord.Pass);
}
