using System.Buffers;
using Grpc.Core;
using Portwitness.History;
using Portwitness.Service.Calls;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Validation;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Submitting;

/// <summary>
/// One Upload call: the start, the offset from which to go on, then pieces, each acknowledged when it is on disk, and the hash of all of it at the end.
/// </summary>
/// <param name="limits">What is taken.</param>
/// <param name="call">Counts.</param>
/// <param name="store">Where it is kept.</param>
/// <param name="client">Whose upload it is, as the checks of access know it.</param>
/// <param name="requests">From the client.</param>
/// <param name="responses">To the client.</param>
/// <param name="cancellation">Stops it.</param>
internal sealed class UploadCall(
    ServiceLimits limits, WatchedCall call, IReportStore? store, string client, IAsyncStreamReader<Wire.UploadRequest> requests,
    IServerStreamWriter<Wire.UploadResponse> responses, CancellationToken cancellation)
{
    // Small pieces are put together: each that is kept costs a transaction.
    private readonly ArrayBufferWriter<byte> _unkept = new();
    private string _hash = "";
    private long _bytes;
    private long _kept;

    /// <summary>Takes the upload.</summary>
    /// <returns>How much of it is kept.</returns>
    public async Task<long> RunAsync()
    {
        IUploadStore uploads = StoreCalls.Of(store).Uploads;
        ReadStart(await requests.MoveNext(cancellation) ? requests.Current.Start : null);
        (_kept, bool isComplete) = await StoreCalls.AskAsync(uploads.BeginAsync(client, _hash, _bytes, cancellation));
        await AnswerAsync(isComplete);
        while (!isComplete && _kept < _bytes && await requests.MoveNext(cancellation))
        {
            ReceiveData();
            if (_unkept.WrittenCount >= limits.PieceBytes || _kept + _unkept.WrittenCount == _bytes)
            {
                isComplete = await KeepAsync(uploads);
                await AnswerAsync(isComplete);
            }
        }

        if (!isComplete && _unkept.WrittenCount > 0)
        {
            isComplete = await KeepAsync(uploads);
            await AnswerAsync(isComplete);
        }

        if (!isComplete && _kept == _bytes)
        {
            if (!await StoreCalls.AskAsync(uploads.CompleteAsync(client, _hash, cancellation)))
            {
                throw new RpcException(new Status(
                    StatusCode.DataLoss, "What arrived does not have the hash that was said, and was dropped; send it again from the beginning."));
            }

            await AnswerAsync(true);
        }

        return _kept;
    }

    private void ReadStart(Wire.UploadStart? start)
    {
        if (start is null)
        {
            throw InvalidRequest.Because("start", "missing; it is the first message of a call.");
        }

        InvalidRequest invalid = new();
        if (!SubmittedProduct.IsHash(start.Sha256))
        {
            invalid.Add("start.sha256", "not 64 lower-case hexadecimal digits.");
        }

        if (start.Bytes < 1)
        {
            invalid.Add("start.bytes", "not a length; what is empty is sent with the submission itself.");
        }

        if (start.Bytes > limits.UploadBytes)
        {
            invalid.AddTooMuch("start.bytes", $"{start.Bytes}; at most {limits.UploadBytes} are taken.");
        }

        invalid.ThrowIfAny();
        (_hash, _bytes) = (start.Sha256, start.Bytes);
    }

    private void ReceiveData()
    {
        if (requests.Current.PartCase != Wire.UploadRequest.PartOneofCase.Data)
        {
            throw InvalidRequest.Because("start", "sent twice; after the start only data may follow.");
        }

        ReadOnlySpan<byte> piece = requests.Current.Data.Span;
        if (piece.Length > limits.PieceBytes)
        {
            throw InvalidRequest.TooMuch("data", $"{piece.Length} bytes; a piece holds at most {limits.PieceBytes}. Send more pieces.");
        }

        if (piece.Length > _bytes - _kept - _unkept.WrittenCount)
        {
            throw InvalidRequest.Because("data", $"goes beyond the {_bytes} bytes that the start said.");
        }

        call.Received(piece.Length);
        _unkept.Write(piece);
    }

    // Whether the whole is there, which another call has then completed.
    private async Task<bool> KeepAsync(IUploadStore uploads)
    {
        if (await StoreCalls.AskAsync(uploads.AppendAsync(client, _hash, _kept, _unkept.WrittenMemory, cancellation)))
        {
            _kept += _unkept.WrittenCount;
            _unkept.ResetWrittenCount();
            return false;
        }

        (_kept, bool isComplete) = await StoreCalls.AskAsync(uploads.BeginAsync(client, _hash, _bytes, cancellation));
        return isComplete ? true : throw new RpcException(new Status(
            StatusCode.Aborted, "The same file is being uploaded by another call of this client; call again, and go on from the offset that is answered."));
    }

    private Task AnswerAsync(bool isComplete) => responses.WriteAsync(new Wire.UploadResponse { Offset = _kept, Complete = isComplete }, cancellation);
}
