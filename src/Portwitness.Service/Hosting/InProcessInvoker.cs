using Grpc.Core;
using Portwitness.Contracts.V1;

namespace Portwitness.Service.Hosting;

/// <summary>
/// Calls the service of this process by its own methods: the same code that serves the network, without a network. A
/// generated client works on it as on a channel.
/// </summary>
public sealed class InProcessInvoker : CallInvoker
{
    private readonly Handlers _handlers = new();

    /// <summary>An invoker of one service.</summary>
    public InProcessInvoker(Witness.WitnessBase service) => Witness.BindService(_handlers, service);

    /// <inheritdoc/>
    public override AsyncDuplexStreamingCall<TRequest, TResponse> AsyncDuplexStreamingCall<TRequest, TResponse>(
        Method<TRequest, TResponse> method, string? host, CallOptions options)
    {
        InProcessCall<TRequest, TResponse> call = new(method, options);
        call.Run(context => _handlers.Find<DuplexStreamingServerMethod<TRequest, TResponse>>(method)(call.Requests, call.Answers, context));
        return new(
            call.Requests, call.Responses, call.HeadersAsync, call.GetStatus, call.GetTrailers, call.Dispose);
    }

    /// <inheritdoc/>
    public override AsyncServerStreamingCall<TResponse> AsyncServerStreamingCall<TRequest, TResponse>(
        Method<TRequest, TResponse> method, string? host, CallOptions options, TRequest request)
    {
        InProcessCall<TRequest, TResponse> call = new(method, options);
        call.Run(context => _handlers.Find<ServerStreamingServerMethod<TRequest, TResponse>>(method)(request, call.Answers, context));
        return new(call.Responses, call.HeadersAsync, call.GetStatus, call.GetTrailers, call.Dispose);
    }

    /// <inheritdoc/>
    public override AsyncUnaryCall<TResponse> AsyncUnaryCall<TRequest, TResponse>(
        Method<TRequest, TResponse> method, string? host, CallOptions options, TRequest request)
    {
        InProcessCall<TRequest, TResponse> call = new(method, options);
        call.Run(async context => await call.Answers.WriteAsync(
            await _handlers.Find<UnaryServerMethod<TRequest, TResponse>>(method)(request, context), context.CancellationToken));
        return new(call.SingleAsync(), call.HeadersAsync, call.GetStatus, call.GetTrailers, call.Dispose);
    }

    /// <inheritdoc/>
    public override AsyncClientStreamingCall<TRequest, TResponse> AsyncClientStreamingCall<TRequest, TResponse>(
        Method<TRequest, TResponse> method, string? host, CallOptions options)
    {
        InProcessCall<TRequest, TResponse> call = new(method, options);
        call.Run(async context => await call.Answers.WriteAsync(
            await _handlers.Find<ClientStreamingServerMethod<TRequest, TResponse>>(method)(call.Requests, context),
            context.CancellationToken));
        return new(call.Requests, call.SingleAsync(), call.HeadersAsync, call.GetStatus, call.GetTrailers, call.Dispose);
    }

    /// <inheritdoc/>
    public override TResponse BlockingUnaryCall<TRequest, TResponse>(
        Method<TRequest, TResponse> method, string? host, CallOptions options, TRequest request)
    {
        using AsyncUnaryCall<TResponse> call = AsyncUnaryCall(method, host, options, request);
        return call.GetAwaiter().GetResult();
    }

    // What the generated code binds, by the full name of its method.
    private sealed class Handlers : ServiceBinderBase
    {
        private readonly Dictionary<string, Delegate> _byName = [];

        public THandler Find<THandler>(IMethod method)
            where THandler : Delegate =>
            _byName.TryGetValue(method.FullName, out Delegate? handler)
                ? (THandler)handler
                : throw new RpcException(new Status(StatusCode.Unimplemented, $"{method.FullName} is not served here."));

        public override void AddMethod<TRequest, TResponse>(
            Method<TRequest, TResponse> method, UnaryServerMethod<TRequest, TResponse>? handler) => Add(method, handler);

        public override void AddMethod<TRequest, TResponse>(
            Method<TRequest, TResponse> method, ClientStreamingServerMethod<TRequest, TResponse>? handler) => Add(method, handler);

        public override void AddMethod<TRequest, TResponse>(
            Method<TRequest, TResponse> method, ServerStreamingServerMethod<TRequest, TResponse>? handler) => Add(method, handler);

        public override void AddMethod<TRequest, TResponse>(
            Method<TRequest, TResponse> method, DuplexStreamingServerMethod<TRequest, TResponse>? handler) => Add(method, handler);

        private void Add(IMethod method, Delegate? handler) =>
            _byName.Add(method.FullName, handler ?? throw new ArgumentNullException(nameof(handler)));
    }
}
