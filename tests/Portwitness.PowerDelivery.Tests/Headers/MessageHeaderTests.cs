using CsCheck;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.PowerDelivery.Tests.Headers;

public sealed class MessageHeaderTests
{
    [Fact]
    public void EveryHeader_DecodedAndEncoded_IsTheSameWord()
    {
        for (int word = 0; word <= 0xFFFF; word++)
        {
            MessageHeader header = new((ushort)word);
            MessageHeader built = MessageHeader.Create(
                header.Kind, header.ObjectCount, header.MessageId, header.SourceOrCablePlug, header.DownstreamFacing,
                header.RevisionCode);
            if (built != header)
            {
                Assert.Fail($"0x{word:X4} became 0x{built.Raw:X4}.");
            }
        }
    }

    [Theory]
    [InlineData(MessageClass.Control, 1)]
    [InlineData(MessageClass.Data, 0)]
    public void ClassThatTheCountContradicts_IsABadCall(MessageClass messageClass, int objects)
    {
        Action call = () => MessageHeader.Create(new MessageKind(messageClass, 1), objects, 0, true, true, 2);
        call.Should().Throw<ArgumentException>().WithParameterName("objectCount");
    }

    // From memory: R2.0 reserves bits 15 and 4.
    [Theory]
    [InlineData(0x0363, false)]
    [InlineData(0x0373, true)]
    [InlineData(0x8363, true)]
    public void BitsThatR20Reserves_AreTold_WhateverTheRevision(int word, bool expected) =>
        new MessageHeader((ushort)word).SetsBitsReservedInR20.Should().Be(expected);

    // R3.2v1.1, Table 6.1: bits 8 and 5 depend on who speaks.
    [Fact]
    public void CablePlug_HasItsOwnLayout()
    {
        MessageHeader.LayoutFor(SopKind.Sop).Should().BeSameAs(MessageHeader.Layout);
        MessageHeader.LayoutFor(SopKind.SopDoublePrime).Should().BeSameAs(MessageHeader.CablePlugLayout);
        MessageHeader.CablePlugLayout.ReservedMask.Should().Be(1u << 5);
        MessageHeader.Layout.ReservedMask.Should().Be(0);
    }

    [Fact]
    public void EveryExtendedHeader_DecodedAndEncoded_LosesTheReservedBitOnly() =>
        Gen.UShort.Sample(word =>
        {
            ExtendedHeader header = new(word);
            return ExtendedHeader.Create(header.Chunked, header.ChunkNumber, header.RequestChunk, header.DataSize).Raw
                == (word & ~0x0200);
        });
}
