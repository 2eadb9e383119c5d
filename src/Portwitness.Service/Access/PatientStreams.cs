using Google.Protobuf;
using Grpc.Core;
using Grpc.Core.Interceptors;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Portwitness.Service.Validation;

namespace Portwitness.Service.Access;

/// <summary>
/// Ends calls of clients that send nothing, or take nothing, for too long, or that send nonsense; a call that is watched may be silent for longer.
/// </summary>
internal sealed class PatientStreams(ServiceLimits limits) : Interceptor
{
    // RFC 9113, 7: the peer behaves in a way that costs too much. gRPC reads it as ResourceExhausted.
    private const int EnhanceYourCalm = 0xb;

    /// <inheritdoc/>
    public override Task<TResponse> ClientStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream, ServerCallContext context, ClientStreamingServerMethod<TRequest, TResponse> continuation) =>
        continuation(new Reader<TRequest>(requestStream, PatienceFor(context)), context);

    /// <inheritdoc/>
    public override Task ServerStreamingServerHandler<TRequest, TResponse>(
        TRequest request, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, ServerStreamingServerMethod<TRequest, TResponse> continuation) =>
        continuation(request, new Writer<TResponse>(responseStream, limits.Patience, context.GetHttpContext()), context);

    /// <inheritdoc/>
    public override Task DuplexStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream, IServerStreamWriter<TResponse> responseStream, ServerCallContext context,
        DuplexStreamingServerMethod<TRequest, TResponse> continuation) =>
        continuation(new Reader<TRequest>(requestStream, PatienceFor(context)), new Writer<TResponse>(responseStream, limits.Patience, context.GetHttpContext()), context);

    private TimeSpan PatienceFor(ServerCallContext context) =>
        context.GetHttpContext().GetEndpoint()?.Metadata.GetMetadata<WatchedWhileRecordedAttribute>() is null ? limits.Patience : limits.WatchPatience;

    private static RpcException Late(string what, TimeSpan patience) =>
        new(new Status(StatusCode.DeadlineExceeded, $"The client {what} nothing for {patience.TotalSeconds:0.###} s."));

    private sealed class Reader<T>(IAsyncStreamReader<T> inner, TimeSpan patience) : IAsyncStreamReader<T>
    {
        public T Current => inner.Current;

        public async Task<bool> MoveNext(CancellationToken cancellationToken)
        {
            Task<bool> next = inner.MoveNext(cancellationToken);
            try
            {
                return next.IsCompleted ? await next : await next.WaitAsync(patience, cancellationToken);
            }
            catch (TimeoutException)
            {
                throw Late("sent", patience);
            }
            catch (InvalidProtocolBufferException)
            {
                throw new RpcException(new Status(StatusCode.InvalidArgument, UnreadMessages.Malformed));
            }
        }
    }

    private sealed class Writer<T>(IServerStreamWriter<T> inner, TimeSpan patience, HttpContext http) : IServerStreamWriter<T>
    {
        public WriteOptions? WriteOptions
        {
            get => inner.WriteOptions;
            set => inner.WriteOptions = value;
        }

        public Task WriteAsync(T message) => WriteAsync(message, CancellationToken.None);

        public async Task WriteAsync(T message, CancellationToken cancellationToken)
        {
            Task written = inner.WriteAsync(message, cancellationToken);
            try
            {
                await (written.IsCompleted ? written : written.WaitAsync(patience, cancellationToken));
            }
            catch (TimeoutException)
            {
                // No status would pass what is stuck already: without this the call would stay open for as long as the client likes.
                http.Features.GetRequiredFeature<IHttpResetFeature>().Reset(EnhanceYourCalm);
                throw Late("took", patience);
            }
        }
    }
}
