using System.Text.Json;
using CsCheck;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.Tests.Support;

namespace Portwitness.PowerDelivery.Tests.Messages;

/// <summary>Source of every rule: R3.2v1.1, 6.2.1.2, Tables 6.4 and 6.84.</summary>
public sealed class ChunkAssemblerTests
{
    private static readonly byte[] Block60 = [.. Enumerable.Range(1, 60).Select(value => (byte)value)];

    // The 140 W list of shared/vectors: the seventh object lies across chunks 0 and 1.
    [Fact]
    public void ListOf140W_InTwoChunks_ComesTogetherByteForByte()
    {
        JsonElement frames = Vectors.Read("frames.json");
        byte[] Frame(string name) => Vectors.ParseBytes(frames.GetProperty("entries").EnumerateArray()
            .Single(entry => entry.GetProperty("name").GetString() == name).GetProperty("bytes").GetString()!);

        ChunkAssembler assembler = new(SopKind.Sop);
        ChunkResult first = Take(assembler, Frame("epr-chunk-0"));
        first.Outcome.Should().Be(ChunkOutcome.Collecting);
        first.DataSize.Should().Be(36);
        MessageView.TryRead(Frame("epr-chunk-request"), out MessageView request).Should().BeTrue();
        assembler.HearReceiver(request).Should().BeEquivalentTo(
            new { Outcome = ChunkOutcome.ChunkRequest, Faults = Array.Empty<ChunkFault>() });
        ChunkResult last = Take(assembler, Frame("epr-chunk-1"));
        last.Outcome.Should().Be(ChunkOutcome.Complete);
        last.Kind.Should().Be(MessageKind.EPRSourceCapabilities);
        last.Faults.Should().BeEmpty();
        last.Chunks.Should().Equal(0, 1);
        last.Block!.IsWhollyKnown.Should().BeTrue();
        new EprCapabilitiesBlock(last.Block).Objects.Select(item => $"0x{item.Raw:X8}").Should().Equal(
            frames.GetProperty("reassembled").GetProperty("objects").EnumerateArray().Select(word => word.GetString()));
    }

    [Fact]
    public void BlockOfAnySize_InChunks_ComesTogether() =>
        Gen.Byte.Array[0, 260].Sample(bytes =>
        {
            ChunkAssembler assembler = new(SopKind.Sop);
            ChunkResult? result = null;
            int chunks = Math.Max(1, (bytes.Length + 25) / 26);
            for (int i = 0; i < chunks; i++)
            {
                result = Take(assembler, Chunk(bytes, i));
            }

            return result!.Outcome == ChunkOutcome.Complete && result.Faults.IsEmpty && result.Chunks.Length == chunks
                && result.Block!.Equals(DataBlock.Of(bytes)) && assembler.BreakOff() is null;
        });

    // Table 6.4 and what follows from it: Data Size to chunks and objects.
    [Theory]
    [InlineData(4, "2")]
    [InlineData(24, "7")]
    [InlineData(26, "7")]
    [InlineData(27, "7 1")]
    [InlineData(36, "7 3")]
    [InlineData(44, "7 5")]
    [InlineData(52, "7 7")]
    [InlineData(260, "7 7 7 7 7 7 7 7 7 7")]
    public void ObjectCountOfEachChunk_IsThatOfTheStandard(int size, string counts)
    {
        ChunkAssembler assembler = new(SopKind.Sop);
        int[] objects = [.. counts.Split(' ').Select(int.Parse)];
        for (int i = 0; i < objects.Length; i++)
        {
            byte[] message = Chunk(new byte[size], i);
            Codes(Take(assembler, WithCount(message, objects[i]))).Should().BeEmpty();
            Codes(Take(new ChunkAssembler(SopKind.Sop), WithCount(message, objects[i] ^ 1)))
                .Should().Contain(ChunkFaultCode.ObjectCountDiffers);
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(27)]
    [InlineData(260)]
    [InlineData(511)]
    public void UnchunkedMessage_IsCompleteAtOnce(int size)
    {
        ChunkResult result = Take(new ChunkAssembler(SopKind.Sop), Unchunked(new byte[size]));
        result.Outcome.Should().Be(ChunkOutcome.Complete);
        result.Block!.Length.Should().Be(size);
        Codes(result).Should().Equal(size > 260 ? [ChunkFaultCode.SizeBeyondLimit] : []);
    }

    [Fact]
    public void UnchunkedMessage_WithACablePlugOrANumber_IsTold()
    {
        Codes(Take(new ChunkAssembler(SopKind.SopPrime), Unchunked(new byte[2])))
            .Should().Equal(ChunkFaultCode.UnchunkedWithCablePlug);
        byte[] numbered = Unchunked(new byte[2]);
        numbered[3] |= 1 << 3;
        Codes(Take(new ChunkAssembler(SopKind.Sop), numbered)).Should().Equal(ChunkFaultCode.UnchunkedWithNumber);
    }

    [Fact]
    public void MissingChunk_BreaksTheBlock_WhichKeepsTheRest()
    {
        ChunkAssembler assembler = new(SopKind.Sop);
        Take(assembler, Chunk(Block60, 0));
        ChunkResult result = Take(assembler, Chunk(Block60, 2));
        result.Outcome.Should().Be(ChunkOutcome.Broken);
        result.Faults.Should().Equal(new ChunkFault(ChunkFaultCode.MissingChunk, 1, "Chunk 1 is missing before chunk 2."));
        result.Chunks.Should().Equal(0, 2);
        result.Block!.Bytes[..26].ToArray().Should().Equal(Block60[..26]);
        result.Block.Known[26..52].ToArray().Should().OnlyContain(known => known == 0);
        result.Block.Bytes[52..].ToArray().Should().Equal(Block60[52..]);
    }

    [Fact]
    public void FirstChunkMissing_IsTold_AndTheRestKept()
    {
        ChunkResult result = Take(new ChunkAssembler(SopKind.Sop), Chunk(Block60, 2));
        result.Outcome.Should().Be(ChunkOutcome.Broken);
        Codes(result).Should().Equal(
            ChunkFaultCode.NotStarted, ChunkFaultCode.MissingChunk, ChunkFaultCode.MissingChunk);
        result.Block!.Known[..52].ToArray().Should().OnlyContain(known => known == 0);
    }

    // 6.7.1.2: a retry has the MessageID of what it repeats.
    [Fact]
    public void RepeatedChunk_IsDropped_AndToldUnlessItIsARetry()
    {
        ChunkAssembler assembler = new(SopKind.Sop);
        Take(assembler, Chunk(Block60, 0));
        ChunkResult retry = Take(assembler, Chunk(Block60, 0));
        retry.Outcome.Should().Be(ChunkOutcome.Repeated);
        retry.Faults.Should().BeEmpty();
        Take(assembler, Chunk(Block60, 1));
        ChunkResult again = Take(assembler, WithId(Chunk(Block60, 1), 7));
        again.Outcome.Should().Be(ChunkOutcome.Repeated);
        again.Faults.Single().Text.Should().Be("Chunk 1 came again with another MessageID.");
        Take(assembler, Chunk(Block60, 2)).Outcome.Should().Be(ChunkOutcome.Complete);
        Take(assembler, Chunk(Block60, 2)).Outcome.Should().Be(ChunkOutcome.Repeated);
    }

    [Fact]
    public void ChunkAfterALaterOne_IsTold()
    {
        ChunkAssembler assembler = new(SopKind.Sop);
        byte[] block = new byte[100];
        Take(assembler, Chunk(block, 0));
        Codes(Take(assembler, Chunk(block, 2))).Should().Equal(ChunkFaultCode.MissingChunk);
        Codes(Take(assembler, Chunk(block, 1))).Should().Equal(ChunkFaultCode.OutOfOrder);
        ChunkResult result = Take(assembler, Chunk(block, 3));
        result.Outcome.Should().Be(ChunkOutcome.Complete);
        result.Chunks.Should().Equal(0, 1, 2, 3);
    }

    [Fact]
    public void DataSizeThatDiffers_BreaksTheBlock()
    {
        ChunkAssembler assembler = new(SopKind.Sop);
        Take(assembler, Chunk(Block60[..44], 0));
        ChunkResult result = Take(assembler, Chunk(Block60[..45], 1));
        result.Outcome.Should().Be(ChunkOutcome.Broken);
        result.Faults[0].Should().Be(new ChunkFault(
            ChunkFaultCode.SizeDiffers, 1, "Data Size is 45 in chunk 1, but was 44."));
        result.DataSize.Should().Be(44);
    }

    [Fact]
    public void ChunkBeyondTheBlock_BreaksIt()
    {
        ChunkAssembler assembler = new(SopKind.Sop);
        Take(assembler, Chunk(Block60[..36], 0));
        ChunkResult result = Take(assembler, Chunk(Block60[..36], 5));
        result.Outcome.Should().Be(ChunkOutcome.Broken);
        Codes(result).Should().Contain(ChunkFaultCode.BeyondSize);
    }

    [Fact]
    public void ChunkCutShort_BreaksTheBlock_WhichKeepsWhatIsThere()
    {
        ChunkResult result = Take(new ChunkAssembler(SopKind.Sop), Chunk(Block60[..20], 0)[..^6]);
        result.Outcome.Should().Be(ChunkOutcome.Broken);
        result.Faults.Single().Text.Should().Be("16 of 20 bytes of chunk 0 are there.");
        result.Block!.Known[15].Should().Be(0xFF);
        result.Block.Known[16].Should().Be(0);
    }

    [Fact]
    public void PaddingThatIsNotZero_IsTold()
    {
        byte[] message = Chunk(Block60[..4], 0);
        message[^1] = 1;
        ChunkResult result = Take(new ChunkAssembler(SopKind.Sop), message);
        result.Outcome.Should().Be(ChunkOutcome.Complete);
        Codes(result).Should().Equal(ChunkFaultCode.PaddingNotZero);
    }

    [Fact]
    public void AnotherMessage_BreaksTheBlockOff_ButAGoodCrcDoesNot()
    {
        ChunkAssembler assembler = new(SopKind.Sop);
        Take(assembler, Chunk(Block60, 0));
        Take(assembler, [0x61, 0x03]).BrokenOff.Should().BeNull();
        ChunkResult result = Take(assembler, [0x63, 0x05]);
        result.Outcome.Should().Be(ChunkOutcome.PassedThrough);
        result.BrokenOff!.Outcome.Should().Be(ChunkOutcome.Broken);
        result.BrokenOff.Faults.Single().Text.Should().Be("Status broke off before chunk 1 of 3 chunks.");
        result.BrokenOff.Block!.Bytes[..26].ToArray().Should().Equal(Block60[..26]);
        assembler.BreakOff().Should().BeNull();
    }

    [Fact]
    public void NewBlock_BreaksTheOldOneOff()
    {
        ChunkAssembler assembler = new(SopKind.Sop);
        Take(assembler, Chunk(Block60, 0));
        ChunkResult result = Take(assembler, WithId(Chunk(Block60[..4], 0), 6));
        result.Outcome.Should().Be(ChunkOutcome.Complete);
        result.BrokenOff!.Chunks.Should().Equal(0);
    }

    [Fact]
    public void ReceiversOtherMessage_BreaksTheBlockOff()
    {
        ChunkAssembler assembler = new(SopKind.Sop);
        Take(assembler, Chunk(Block60, 0));
        MessageView.TryRead([0x90, 0x02], out MessageView notSupported).Should().BeTrue();
        assembler.HearReceiver(notSupported).BrokenOff.Should().NotBeNull();
    }

    // Told only where the receiver is seen: a capture of one direction has no requests.
    [Fact]
    public void ChunkThatWasNotAskedFor_IsTold()
    {
        ChunkAssembler assembler = new(SopKind.Sop);
        Take(assembler, Chunk(Block60, 0));
        Codes(Take(assembler, Chunk(Block60, 1))).Should().BeEmpty();
        MessageView.TryRead([0x81, 0x02], out MessageView goodCrc).Should().BeTrue();
        assembler.HearReceiver(goodCrc);
        Codes(Take(assembler, Chunk(Block60, 2))).Should().Equal(ChunkFaultCode.NotRequested);
    }

    [Theory]
    [InlineData(2, 0x02, 1, 0, ChunkFaultCode.WrongRequest)] // chunk 2 before chunk 1
    [InlineData(1, 0x07, 1, 0, ChunkFaultCode.WrongRequest)] // another message
    [InlineData(1, 0x02, 1, 4, ChunkFaultCode.MalformedRequest)] // Data Size is not 0
    [InlineData(1, 0x02, 2, 0, ChunkFaultCode.MalformedRequest)] // two objects
    public void RequestThatIsWrong_IsTold(int number, int type, int objects, int size, ChunkFaultCode fault)
    {
        ChunkAssembler assembler = new(SopKind.Sop);
        Take(assembler, Chunk(Block60, 0));
        MessageHeader header = MessageHeader.Create(new(MessageClass.Extended, type), objects, 0, false, false, 2);
        ExtendedHeader request = ExtendedHeader.Create(true, number, true, size);
        MessageView.TryRead(
            [(byte)header.Raw, (byte)(header.Raw >> 8), (byte)request.Raw, (byte)(request.Raw >> 8), 0, 0],
            out MessageView message).Should().BeTrue();
        ChunkResult result = assembler.HearReceiver(message);
        result.Outcome.Should().Be(ChunkOutcome.ChunkRequest);
        Codes(result).Should().Equal(fault);
    }

    [Fact]
    public void HeadersNotShownOrMissing_AreTold()
    {
        byte[] message = Chunk(Block60[..4], 0);
        byte[] known = [.. Enumerable.Repeat((byte)0xFF, message.Length)];
        known[3] = 0x7F;
        MessageView.TryRead(message, out MessageView view).Should().BeTrue();
        Codes(new ChunkAssembler(SopKind.Sop).HearSender(view, known)).Should().Equal(ChunkFaultCode.HeaderNotShown);
        Codes(new ChunkAssembler(SopKind.Sop).HearSender(view, known.AsSpan(1))).Should().Equal(ChunkFaultCode.HeaderNotShown);
        ChunkResult cut = Take(new ChunkAssembler(SopKind.Sop), message[..3]);
        cut.Outcome.Should().Be(ChunkOutcome.NotReadable);
        Codes(cut).Should().Equal(ChunkFaultCode.NoExtendedHeader);
    }

    [Fact]
    public void BitsNotShown_AreNotShownInTheBlock()
    {
        byte[] message = Chunk(Block60[..4], 0);
        byte[] known = [.. Enumerable.Repeat((byte)0xFF, message.Length)];
        known[5] = 0x0F;
        MessageView.TryRead(message, out MessageView view).Should().BeTrue();
        ChunkResult result = new ChunkAssembler(SopKind.Sop).HearSender(view, known);
        result.Outcome.Should().Be(ChunkOutcome.Complete);
        result.Block!.Known.ToArray().Should().Equal(0xFF, 0x0F, 0xFF, 0xFF);
    }

    [Fact]
    public void AnyMessages_NeverThrow_AndStayBounded() =>
        Gen.Select(Gen.Byte.Array[2, 40], Gen.Bool, Gen.Int[0, 3]).Array[0, 40].Sample(messages =>
        {
            ChunkAssembler assembler = new(SopKind.Sop);
            foreach ((byte[] bytes, bool fromReceiver, int steer) in messages)
            {
                // Most random messages are steered into extended ones of two types, so that chunks meet.
                bytes[1] |= (byte)(steer > 0 ? 0x80 : 0);
                bytes[0] = (byte)(steer > 1 ? 1 + (bytes[0] & 1) : bytes[0]);
                MessageView.TryRead(bytes, out MessageView view);
                ChunkResult result = fromReceiver ? assembler.HearReceiver(view) : assembler.HearSender(view);
                bool whole = result.Outcome != ChunkOutcome.Complete || result.Block!.IsWhollyKnown;
                if (!whole || (result.Block?.Length ?? 0) > 511 || result.Chunks.Any(chunk => chunk > 15))
                {
                    return false;
                }
            }

            return true;
        });

    private static ChunkFaultCode[] Codes(ChunkResult result) => [.. result.Faults.Select(fault => fault.Code)];

    private static ChunkResult Take(ChunkAssembler assembler, byte[] bytes)
    {
        MessageView.TryRead(bytes, out MessageView view).Should().BeTrue();
        return assembler.HearSender(view);
    }

    private static byte[] Unchunked(byte[] block) => [0xA2, 0x81, (byte)block.Length, (byte)(block.Length >> 8), .. block];

    // Written from Table 6.4, apart from the code under test: a Status message, MessageID as the chunk's number.
    private static byte[] Chunk(byte[] block, int number)
    {
        byte[] part = [.. block.Skip(26 * number).Take(26)];
        int objects = (2 + part.Length + 3) / 4;
        byte[] padding = new byte[(objects * 4) - 2 - part.Length];
        return
        [
            0xA2, (byte)(0x81 | (objects << 4) | ((number % 8) << 1)),
            (byte)block.Length, (byte)(0x80 | (number << 3) | (block.Length >> 8)), .. part, .. padding,
        ];
    }

    private static byte[] WithId(byte[] message, int id) => [message[0], (byte)((message[1] & ~0x0E) | (id << 1)), .. message[2..]];

    private static byte[] WithCount(byte[] message, int count) =>
        [message[0], (byte)((message[1] & ~0x70) | (count << 4)), .. message[2..]];
}
