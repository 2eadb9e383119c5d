using System.Reflection;
using CsCheck;
using Portwitness.PowerDelivery.Explanations;
using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.Tests.Layout;

public sealed class BitLayoutTests
{
    public static IEnumerable<object[]> Names => BitLayouts.All.Select(layout => new object[] { layout.Name });

    [Theory]
    [MemberData(nameof(Names))]
    public void EveryLayout_CoversEachBitOnce_HighToLow(string name)
    {
        BitLayout layout = Of(name);
        int next = layout.Width - 1;
        foreach (BitField field in layout.Fields)
        {
            field.High.Should().Be(next, $"{field.Name} follows the field above it");
            field.Low.Should().BeLessThanOrEqualTo(field.High);
            next = field.Low - 1;
        }

        next.Should().Be(-1, "the last field ends at bit 0");
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void EveryLayout_NamesItsBitsAndItsClause(string name)
    {
        BitLayout layout = Of(name);
        layout.Width.Should().BeOneOf(16, 32);
        layout.Clause.Should().MatchRegex(@"^R\d\.\d");
        layout.ToString().Should().Be(name);
        layout.Fields.Where(field => !field.IsReserved).Select(field => field.Name).Should().OnlyHaveUniqueItems();
        layout.Fields.Should().OnlyContain(field => field.IsReserved == (field.Name == "Reserved"));
        layout.ReservedMask.Should().Be(
            layout.Fields.Where(field => field.IsReserved).Aggregate(0u, (mask, field) => mask | field.Mask));
    }

    [Fact]
    public void AllLayouts_AreListedOnce()
    {
        IEnumerable<BitLayout> declared = typeof(BitLayout).Assembly.GetExportedTypes()
            .SelectMany(type => type.GetProperties(BindingFlags.Public | BindingFlags.Static))
            .Where(property => property.PropertyType == typeof(BitLayout))
            .Select(property => (BitLayout)property.GetValue(null)!);
        BitLayouts.All.Should().BeEquivalentTo(declared);
        BitLayouts.All.Should().OnlyHaveUniqueItems(layout => layout.Name);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void AnyWord_TakenApartAndPutTogether_IsTheSameWord(string name)
    {
        BitLayout layout = Of(name);
        uint mask = (uint)((1UL << layout.Width) - 1);
        Gen.Select(Gen.UInt, Gen.UInt).Sample((word, background) =>
        {
            uint built = background;
            foreach (BitField field in layout.Fields)
            {
                built = field.Set(built, field.Get(word));
            }

            return (built & mask) == (word & mask);
        });
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void EachField_EachValue_ChangesNoOtherBit(string name)
    {
        const uint Pattern = 0xA5A5_5A5A;
        foreach (BitField field in Of(name).Fields)
        {
            // Every value of fields up to 16 bits; both ends of wider ones.
            IEnumerable<uint> values = field.Width <= 16
                ? Enumerable.Range(0, (int)field.Maximum + 1).Select(value => (uint)value)
                : [0, 1, field.Maximum - 1, field.Maximum];
            foreach (uint value in values)
            {
                uint word = field.Set(Pattern, value);
                if (field.Get(word) != value || (word & ~field.Mask) != (Pattern & ~field.Mask))
                {
                    Assert.Fail($"{field.Name} = {value} became {field.Get(word)} in 0x{word:X8}.");
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void EachField_TakesItsEndsAndNothingBeyond(string name)
    {
        foreach (BitField field in Of(name).Fields.Where(field => field.Width < 22))
        {
            int largest = (int)field.Maximum * field.Scale;
            field.GetScaled(field.SetScaled(0, largest)).Should().Be(largest);
            field.SetScaled(field.Mask, 0).Should().Be(0);
            ((Action)(() => field.SetScaled(0, largest + field.Scale))).Should().Throw<ArgumentOutOfRangeException>();
            ((Action)(() => field.SetScaled(0, -field.Scale))).Should().Throw<ArgumentOutOfRangeException>();
            if (field.Scale > 1)
            {
                ((Action)(() => field.SetScaled(0, 1))).Should().Throw<ArgumentOutOfRangeException>();
            }
        }
    }

    [Fact]
    public void WideField_AsAFlag_IsABadCall()
    {
        Action call = () => new BitField("Voltage", 19, 10).SetFlag(0, true);
        call.Should().Throw<ArgumentException>().WithMessage("Voltage is 10 bits wide, not one.*");
    }

    private static BitLayout Of(string name) => BitLayouts.All.First(layout => layout.Name == name);
}
