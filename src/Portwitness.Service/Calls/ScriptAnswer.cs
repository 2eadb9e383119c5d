using Google.Protobuf;
using Grpc.Core;
using Portwitness.Captures;
using Portwitness.Captures.Formats;
using Portwitness.Service.Translation;
using Portwitness.Synthesis;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Calls;

/// <summary>The answer to a script: its faults, or the capture piece by piece.</summary>
internal static class ScriptAnswer
{
    // Writing waits until the client has room, and the capture is made no faster than that.
    public static async Task WriteScriptAsync(
        this IServerStreamWriter<Wire.SynthesizeResponse> responses, SynthesisScript script, string file,
        CaptureFormat format, bool packed, CancellationToken cancellation)
    {
        if (!script.Faults.IsEmpty)
        {
            Wire.SynthesizeFaults faults = new();
            faults.Faults.AddRange(script.Faults.Select(fault => fault.ToContract(file)));
            await responses.WriteAsync(new Wire.SynthesizeResponse { Faults = faults }, cancellation);
            return;
        }

        ICaptureWriter? writer = null;
        foreach (ReadOnlyMemory<byte> piece in Synthesizer.Write(script, stream => writer = format.Begin(stream, packed)))
        {
            await responses.WriteAsync(new Wire.SynthesizeResponse { Data = ByteString.CopyFrom(piece.Span) }, cancellation);
        }

        if (writer?.LeftOut.Count > 0)
        {
            Wire.SynthesizeEnd end = new();
            end.LeftOut.AddRange(writer.LeftOut.Select(pair => new Wire.RecordCount { Kind = pair.Key, Count = pair.Value }));
            await responses.WriteAsync(new Wire.SynthesizeResponse { End = end }, cancellation);
        }
    }
}
