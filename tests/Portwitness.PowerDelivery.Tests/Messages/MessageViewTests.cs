using CsCheck;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.PowerDelivery.Tests.Messages;

public sealed class MessageViewTests
{
    [Theory]
    [InlineData("")]
    [InlineData("A1")]
    public void FewerThanTwoBytes_AreTooShort(string hex) =>
        MessageView.TryRead(Convert.FromHexString(hex), out _).Should().BeFalse();

    [Fact]
    public void HeaderAlone_IsAWholeMessage()
    {
        MessageView view = Read("8100");
        view.Header.Kind.Should().Be(MessageKind.GoodCRC);
        view.ExtendedHeader.Should().BeNull();
        view.Payload.Length.Should().Be(0);
        view.CompleteObjects.Should().Be(0);
        view.ToString().Should().Be("GoodCRC, 0 of 0 objects");
    }

    [Fact]
    public void SevenObjectsClaimedTwoPresent_GivesTheTwoAndTheClaim()
    {
        MessageView view = Read("A171" + "2C910108" + "2CD10200" + "AABBCC");
        view.ClaimedObjects.Should().Be(7);
        view.CompleteObjects.Should().Be(2);
        view.ObjectAt(0).Should().Be(0x0801912C);
        view.ObjectAt(1).Should().Be(0x0002D12C);
        view.Data.Length.Should().Be(8);
        Hex(view.TrailingBytes).Should().Be("AABBCC");
        view.ToString().Should().Be("Source_Capabilities, 2 of 7 objects, 3 trailing bytes");
    }

    [Fact]
    public void BytesAfterTheLastClaimedObject_AreTrailing()
    {
        MessageView view = Read("8210" + "45150543" + "01020304" + "05");
        view.CompleteObjects.Should().Be(1);
        Hex(view.TrailingBytes).Should().Be("0102030405");
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(2)]
    public void ObjectThatIsNotThere_IsABadCall(int index)
    {
        Action call = () => Read("A171" + "2C910108" + "2CD10200" + "AABBCC").ObjectAt(index);
        call.Should().Throw<ArgumentOutOfRangeException>().WithMessage("There are 2 complete objects.*");
    }

    [Theory]
    [InlineData("")]
    [InlineData("24")]
    public void ExtendedMessageWithoutExtendedHeader_HasNoneAndKeepsTheRest(string rest)
    {
        MessageView view = Read("B1F7" + rest);
        view.Header.Extended.Should().BeTrue();
        view.ExtendedHeader.Should().BeNull();
        view.CompleteObjects.Should().Be(0);
        Hex(view.TrailingBytes).Should().Be(rest);
        view.ToString().Should().StartWith("EPR_Source_Capabilities, no extended header");
    }

    // Unchunked: the length comes from Data Size only (R3.2v1.1, 6.2.1.2).
    [Fact]
    public void UnchunkedMessage_IsSplitByDataSize()
    {
        MessageView view = Read("AC85" + "0400" + "01020304" + "0506");
        view.ExtendedHeader.Should().Be(new ExtendedHeader(0x0004));
        Hex(view.Data).Should().Be("01020304");
        view.Padding.Length.Should().Be(0);
        Hex(view.TrailingBytes).Should().Be("0506");
        view.ToString().Should().Be("PPS_Status, 4 of 4 bytes, 2 trailing bytes");
    }

    [Fact]
    public void ChunkCutShort_GivesWhatIsThere()
    {
        MessageView view = Read("B1F7" + "2480" + "2C9181");
        view.ExtendedHeader!.Value.DataSize.Should().Be(36);
        Hex(view.Data).Should().Be("2C9181");
        view.TrailingBytes.Length.Should().Be(0);
    }

    // Chunk 15 begins at byte 390, beyond any data block.
    [Fact]
    public void ChunkBeyondTheDataBlock_HasNoData()
    {
        MessageView view = Read("B1F7" + "24F8" + "00000000");
        view.ExtendedHeader!.Value.ChunkNumber.Should().Be(15);
        view.Data.Length.Should().Be(0);
        Hex(view.Padding).Should().Be("00000000");
    }

    [Fact]
    public void AnyBytes_NeverThrow_Print_AndAreAllAccountedFor() =>
        Gen.Byte.Array[0, 300].Sample(bytes =>
        {
            if (!MessageView.TryRead(bytes, out MessageView view))
            {
                return bytes.Length < 2;
            }

            for (int i = 0; i < view.CompleteObjects; i++)
            {
                _ = view.ObjectAt(i);
            }

            int headers = view.ExtendedHeader is null ? 2 : 4;
            return view.ToString().Length > 0
                && view.CompleteObjects <= view.ClaimedObjects
                && headers + view.Payload.Length == bytes.Length
                && view.Data.Length + view.Padding.Length + view.TrailingBytes.Length == view.Payload.Length;
        });

    [Fact]
    public void ReadingAndItsAccessors_AllocateNothing()
    {
        byte[] bytes = Convert.FromHexString("A1412C9101082CD102002CB1040045410600");
        Sum(bytes);
        long before = GC.GetAllocatedBytesForCurrentThread();
        uint sum = Sum(bytes);
        GC.GetAllocatedBytesForCurrentThread().Should().Be(before);
        sum.Should().Be(5000 + 3000 + 9000 + 3000 + 15000 + 3000 + 20000 + 3250);
    }

    private static uint Sum(ReadOnlySpan<byte> bytes)
    {
        uint sum = 0;
        MessageView.TryRead(bytes, out MessageView view);
        for (int i = 0; i < view.CompleteObjects; i++)
        {
            FixedSourceSupply supply = new SourcePowerObject(view.ObjectAt(i)).AsFixed();
            sum += (uint)(supply.Voltage.Millivolts + supply.MaximumCurrent.Milliamperes);
        }

        return sum;
    }

    private static MessageView Read(string hex)
    {
        MessageView.TryRead(Convert.FromHexString(hex), out MessageView view).Should().BeTrue();
        return view;
    }

    private static string Hex(ReadOnlySpan<byte> bytes) => Convert.ToHexString(bytes);
}
